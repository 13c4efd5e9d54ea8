"""Lines of a draft that are charged only if something happens."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import transaction

from kitting.models import Part
from quotes.models import Line, Quote, Revision
from quotes.services import draft_rules
from quotes.services.drafts import changed_draft, insert_line, open_draft
from quotes.services.part_prices import clean_reason, with_reason
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.typed import is_blank

CAN_HAPPEN = (Line.Kind.LABOUR, Line.Kind.PART, Line.Kind.TEXT)
MOST = 20  # of a quote: a longer list is one that no customer reads


@transaction.atomic
def add_contingency(
    *,
    actor: Actor,
    quote: Quote,
    event: str,
    cap: int,
    title: str,
    quantity: Decimal,
    skill: str = "",
    part: Part | None = None,
    unit_price: Decimal | None = None,
    tax_class: str = "",
    because: str = "",
) -> Revision:
    """Adds work of a skill, a part, or a hand-written line at a price. `quantity` is that of one time.

    A part's own price comes with a reason (`because`).
    """
    revision = open_draft(quote=quote)
    if is_blank(event):
        raise field_error("/event", "missing")
    if Line.objects.filter(shop=revision.shop, revision=revision, certain=False).count() >= MOST:
        raise RequestError(409, "too-many-contingencies", n=MOST)
    _check_reason(part, unit_price, because)
    kind = Line.Kind.LABOUR if skill else Line.Kind.PART if part else Line.Kind.TEXT
    if skill:
        tax_class = draft_rules.labour_class(revision, skill)
    elif part:
        tax_class = part.tax_class or "part"
    else:
        draft_rules.check_tax_class(revision, tax_class)
    line = insert_line(
        revision,
        kind=kind,
        certain=False,
        event=event,
        cap=Decimal(cap),
        title=title,
        quantity=quantity,
        skill=skill,
        part=part,
        unit_price=unit_price,
        tax_class=tax_class,
        override_reason=because,
    )
    return changed_draft(actor, revision, "contingency added", {"line": ["", line.title]}, line.title)


@transaction.atomic
def change_contingency(*, actor: Actor, quote: Quote, line: Line, seen: int, changes: Mapping[str, Any]) -> Revision:
    """Sets the given ones of event, cap, title, quantity, skill, unit_price with its reason, and tax_class.

    A loose part or a hand-written line that was charged in any case is charged only if it happens from then on.
    """
    revision = open_draft(quote=quote, seen=seen)
    if line.kind not in CAN_HAPPEN:
        raise RequestError(409, "cannot-be-contingent")
    _check(revision, line, changes)
    changes = with_reason(line, changes)
    before = {name: str(getattr(line, name)) for name in changes}
    for name, value in changes.items():
        setattr(line, name, Decimal(value) if name == "cap" else value)
    if "skill" in changes:
        line.tax_class = draft_rules.labour_class(revision, line.skill)
    line.certain = False
    clean_reason(line, changes)
    if not line.event:  # also if it was nothing but invisible characters
        raise field_error("/event", "missing")
    if line.cap is None:
        raise field_error("/cap", "missing")
    line.save(update_fields=["certain", "tax_class", *changes])
    fields = {name: [before[name], str(value)] for name, value in changes.items()}
    return changed_draft(actor, revision, "line changed", fields, line.title)


def _check(revision: Revision, line: Line, changes: Mapping[str, Any]) -> None:
    """Work is priced by its skill alone, and nothing else has a skill."""
    labour = line.kind == Line.Kind.LABOUR
    if "because" in changes and line.kind != Line.Kind.PART:
        raise field_error("/because", "parts_only")
    others = ("unit_price", "tax_class") if labour else ("skill",)
    if wrong := next((name for name in others if name in changes), None):
        raise field_error(f"/{wrong}", "labour_by_skill")
    if changes.get("tax_class", line.tax_class) != line.tax_class:
        draft_rules.check_tax_class(revision, changes["tax_class"])


def _check_reason(part: Part | None, price: Decimal | None, because: str) -> None:
    """A part's own price has a reason, and nothing else has."""
    if part is None and because:
        raise field_error("/because", "parts_only")
    if part is not None and price is not None and is_blank(because):
        raise field_error("/because", "own_price_reason")


@transaction.atomic
def charge_in_any_case(*, actor: Actor, quote: Quote, line: Line, seen: int) -> Revision:
    """Charges a part or a hand-written line in any case, as part of the total."""
    revision = open_draft(quote=quote, seen=seen)
    if line.kind == Line.Kind.LABOUR:
        raise RequestError(409, "work-is-contingent")
    event = line.event
    line.certain, line.cap, line.event = True, None, ""
    line.save(update_fields=["certain", "cap", "event"])
    return changed_draft(actor, revision, "line changed", {"event": [event, ""]}, line.title)
