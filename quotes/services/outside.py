"""Outside work of a draft: a line, with the firm and its terms."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import transaction

from kitting.models import Supplier
from quotes.models import Line, OutsideWork, Quote, Revision
from quotes.services import draft_rules
from quotes.services.drafts import changed_draft, insert_line, open_draft
from shop.access import Actor
from shop.calc.keys import search_key
from shop.calc.quantity import plain
from shop.errors import RequestError
from shop.services.search_words import keep_words

LINE = ("title", "tax_class")
MOST_OUTSIDE = 20


@transaction.atomic
def add_outside(*, actor: Actor, quote: Quote, firm: str, fields: Mapping[str, Any]) -> Revision:
    """Adds outside work. `firm` is a name; an unknown one is added. `fields` are all of LINE and TERMS."""
    revision = open_draft(quote=quote)
    if OutsideWork.objects.filter(shop=revision.shop, revision=revision).count() >= MOST_OUTSIDE:
        raise RequestError(409, "too-much-outside", n=MOST_OUTSIDE)
    draft_rules.check_tax_class(revision, fields["tax_class"])
    line = insert_line(revision, kind=Line.Kind.OUTSIDE, **{name: fields[name] for name in LINE})
    work = OutsideWork(shop=revision.shop, revision=revision, line=line, firm=_firm(actor, firm))
    for name in OutsideWork.TERMS:
        setattr(work, name, fields[name])
    work.clean_fields()
    work.save(force_insert=True)
    keep_words([work])
    changes = {"line": ["", line.title], "firm": ["", work.firm.name]}
    return changed_draft(actor, revision, "outside work added", changes, line.title)


@transaction.atomic
def change_outside(
    *, actor: Actor, quote: Quote, line: Line, seen: int, firm: str, fields: Mapping[str, Any]
) -> Revision:
    """Replaces all of LINE and TERMS by `fields`. History stores the differences."""
    revision = open_draft(quote=quote, seen=seen)
    work = OutsideWork.objects.select_related("firm").get(shop=revision.shop, line=line)
    if fields["tax_class"] != line.tax_class:
        draft_rules.check_tax_class(revision, fields["tax_class"])
    before = _told(line, work)
    work.firm = _firm(actor, firm)
    for name in LINE:
        setattr(line, name, fields[name])
    for name in OutsideWork.TERMS:
        setattr(work, name, fields[name])
    line.clean_fields()
    line.save(update_fields=list(LINE))
    work.clean_fields()
    work.save(update_fields=["firm", *OutsideWork.TERMS])
    work.line = line
    keep_words([work])
    after = _told(line, work)
    changes = {name: [before[name], after[name]] for name in after if before[name] != after[name]}
    return changed_draft(actor, revision, "outside work changed", changes, line.title)


def _firm(actor: Actor, name: str) -> Supplier:
    """The supplier of that name, ignoring case and spacing, or a new one paid in the shop's currency."""
    for row in Supplier.objects.filter(shop=actor.shop):
        if search_key(row.name) == search_key(name):
            return row
    row = Supplier(shop=actor.shop, name=name, currency=actor.shop.currency)
    row.clean_fields_as(name="firm")
    row.save(force_insert=True)
    return row


def _told(line: Line, work: OutsideWork) -> dict[str, str]:
    """The line and its terms as history stores them."""
    rows = [(name, getattr(line, name)) for name in LINE] + [(name, getattr(work, name)) for name in OutsideWork.TERMS]
    return {"firm": work.firm.name} | {name: _text(value) for name, value in rows}


def _text(value: Any) -> str:
    if value is None:
        return ""
    return plain(value) if isinstance(value, Decimal) else str(value)
