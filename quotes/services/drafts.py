"""Drafts: the choices of people. Labour, needs, fees and taxes are derived on every read and not stored here."""

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from kitting.models import Kit, KitRevision, Part
from quotes import access
from quotes.calc.priced_labour import WORK
from quotes.models import Line, Override, Quote, Revision
from quotes.queries.draft_state import state_of
from quotes.queries.pricing import QuoteFigures, figures, shop_day
from quotes.services import draft_rules
from quotes.services.draft_steps import add_step
from quotes.services.part_prices import clean_reason, with_reason
from quotes.services.supplied_lines import check_supplied, of_supplied
from shop.access import Actor, rules_on
from shop.errors import RequestError, field_error
from shop.models import Customer, LabourTemplate, Operation, RuleSet, Shop, Vehicle
from shop.services import feed, history
from shop.services.customers import lock_customer
from shop.services.jobs import check_day, here_or_day

OWN = (
    "condition",
    "here",
    "here_from",
    "rules_declined",
    "customer_note",
)  # fields of the draft itself that a change may set
OF_THE_JOB = {"customer", "vehicle", "rules", "here", "here_from"}  # a change has them of its job
OF_KITS = {"fitted_before", "option", "returnable", "supplied"}
OF_LOOSE = {"fitted_by"}
LOOSE = (Line.Kind.PART, Line.Kind.TEXT)
BOUGHT = (Line.Kind.KIT, Line.Kind.PART, Line.Kind.OUTSIDE)  # kinds of line with a cost of their own
OF_PARTS = {"part_condition", "original", "because"}
MOST_KITS = 26  # each has a letter of its own on the quote


@transaction.atomic
def start_quote(
    *,
    actor: Actor,
    kits: list[Kit],
    parts: Sequence[Part] = (),
    customer: Customer | None = None,
    vehicle: Vehicle | None = None,
) -> Revision:
    """Adds a quote with its first draft, of kits and of one piece of each loose part; the customer may be missing."""
    assert actor.member is not None
    now = timezone.now()
    shop = actor.shop
    rules = rules_on(shop, shop_day(shop, now))
    if rules is None:
        raise RequestError(409, "no-rules")
    customer = customer or (vehicle.customer if vehicle else None)
    quote = Quote(
        shop=shop,
        customer=lock_customer(customer) if customer else None,
        vehicle=vehicle,
        advisor=actor.member,
        created_at=now,
    )
    quote.clean_fields()
    quote.save(force_insert=True)
    revision = new_draft(actor, quote, rules, number=1, condition="none")
    for kit in kits:
        _add_kit(revision, kit)
    for part in parts:
        put_part(revision, part, Decimal(1))
    keep_total(revision)
    history.record(actor=actor, verb="started", row=quote)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)
    return revision


def new_draft(
    actor: Actor,
    quote: Quote,
    rules: RuleSet,
    *,
    number: int,
    condition: str,
    here: bool = False,
    here_from: date | None = None,
) -> Revision:
    draft_rules.freeze(rules)
    revision = Revision(
        shop=quote.shop,
        quote=quote,
        number=number,
        rules=rules,
        condition=condition,
        here=here,
        here_from=here_from,
        changed_at=timezone.now(),
        changed_by=actor.member,
    )
    revision.clean_fields()
    revision.save(force_insert=True)
    return revision


def open_draft(*, quote: Quote, seen: int | None = None) -> Revision:
    """The draft to be changed, under the quote's lock, with its state before the change. Refuses like `lock_draft`."""
    revision = lock_draft(quote=quote, seen=seen)
    revision.state_before = state_of(revision)
    return revision


def lock_draft(*, quote: Quote, seen: int | None = None) -> Revision:
    """The draft under the quote's lock. Refused if it is not a draft or has changed since version `seen`."""
    revision = access.current(access.locked(quote))
    if revision.state != Revision.State.DRAFT:  # sent, or accepted while this draft was open
        raise RequestError(409, "not-a-draft")
    if seen is not None and revision.version != seen:
        raise RequestError(412, "changed-meanwhile")
    return revision


def changed_draft(
    actor: Actor, revision: Revision, verb: str, changes: dict[str, list[Any]] | None = None, about: str = ""
) -> Revision:
    """Prices the changed draft and records the change. `about`: the title or the key of what was changed."""
    assert actor.member is not None
    if revision.state_before is not None:
        add_step(revision, revision.state_before, verb, about)
    revision.version += 1
    revision.changed_at, revision.changed_by = timezone.now(), actor.member
    revision.save(update_fields=["version", "changed_at", "changed_by"])
    keep_total(revision)
    history.record(actor=actor, verb=verb, row=revision, changes=changes)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)
    return revision


def keep_total(revision: Revision) -> None:
    """Prices the draft and stores its total for the lists, which do not price."""
    worked_out = figures(revision, timezone.now())
    totals = worked_out.priced.totals
    revision.net, revision.tax, revision.gross = totals.net, totals.tax_total, totals.gross
    revision.gross_high = highest_of_several(worked_out)
    revision.save(update_fields=["net", "tax", "gross", "gross_high"])
    revision.worked_out = worked_out


def highest_of_several(figures: QuoteFigures) -> Decimal | None:
    """The highest of several totals; None if the quote has one."""
    return figures.highest if figures.highest != figures.priced.totals.gross else None


@transaction.atomic
def change_draft(*, actor: Actor, quote: Quote, seen: int, changes: Mapping[str, Any]) -> Revision:
    """Changes the given fields: customer, vehicle, note, customer_note, condition, here, here_from and the rules.

    A vehicle sets its customer if the quote has none. `rules` is the number of the rule set to price by.
    """
    changes = here_or_day(changes)
    if day := changes.get("here_from"):
        check_day(day, shop_day(actor.shop, timezone.now()), "/here_from")
    revision = open_draft(quote=quote, seen=seen)
    quote = revision.quote
    if quote.additional and set(changes) & OF_THE_JOB:
        raise RequestError(409, "change-keeps-its-job")
    before = _told(revision)
    if "customer" in changes:
        quote.customer = lock_customer(changes["customer"]) if changes["customer"] else None
    if "vehicle" in changes:
        quote.vehicle = changes["vehicle"]
        if quote.customer is None and quote.vehicle is not None:
            owner = quote.vehicle.customer
            quote.customer = lock_customer(owner) if owner else None
    if "note" in changes:
        quote.note = changes["note"]
        quote.clean_fields()
    quote.save(update_fields=["customer", "vehicle", "note"])
    if own := [name for name in OWN if name in changes]:
        for name in own:
            setattr(revision, name, changes[name])
    if "rules" in changes:
        draft_rules.price_by(revision, changes["rules"])
    if own or "rules" in changes:
        draft_rules.check_condition(revision, chosen="condition" in changes)
        revision.clean_fields()
        revision.save(update_fields=[*OWN, *draft_rules.FIELDS])
    after = _told(revision)
    difference = {name: [before[name], after[name]] for name in after if name in changes or before[name] != after[name]}
    return changed_draft(actor, revision, "changed", difference, next(iter(changes), ""))


def _told(revision: Revision) -> dict[str, str]:
    """The fields that a change may set, as history stores them."""
    quote = revision.quote
    return {
        "customer": str(quote.customer_id),
        "vehicle": str(quote.vehicle_id),
        "note": quote.note,
        "customer_note": revision.customer_note,
        "condition": revision.condition,
        "here": str(revision.here),
        "here_from": str(revision.here_from),
        "rules": str(revision.rules.number),
        "rules_declined": str(revision.rules_declined),
    }


@transaction.atomic
def add_kit(*, actor: Actor, quote: Quote, kit: Kit) -> Revision:
    revision = open_draft(quote=quote)
    _add_kit(revision, kit)
    return changed_draft(actor, revision, "kit added", {"kit": ["", kit.code]}, kit.title)


def _add_kit(revision: Revision, kit: Kit) -> None:
    if Line.objects.filter(shop=revision.shop, revision=revision, kind=Line.Kind.KIT).count() >= MOST_KITS:
        raise RequestError(409, "too-many-kits", n=MOST_KITS)
    if kit.archived:
        raise RequestError(409, "kit-archived", kit=kit.code)
    kit_revision = KitRevision.objects.filter(shop=revision.shop, kit=kit).order_by("-number").first()
    if kit_revision is None:
        raise RequestError(409, "kit-without-revision", kit=kit.code)
    freeze_kit(kit_revision)
    insert_line(
        revision,
        kind=Line.Kind.KIT,
        title=kit.title,
        tax_class=kit.part.tax_class or "part",
        kit_revision=kit_revision,
        returnable=kit.part.returnable,
    )


def freeze_kit(kit_revision: KitRevision) -> None:
    """Freezes the kit's revision and its labour template for good, on their first use."""
    now = timezone.now()
    KitRevision.objects.filter(pk=kit_revision.pk, used_at=None).update(used_at=now)
    if kit_revision.labour_id:
        LabourTemplate.objects.filter(pk=kit_revision.labour_id, used_at=None).update(used_at=now)


@transaction.atomic
def add_part(*, actor: Actor, quote: Quote, part: Part, quantity: Decimal) -> Revision:
    revision = open_draft(quote=quote)
    put_part(revision, part, quantity)
    return changed_draft(actor, revision, "part added", {"part": ["", part.number]}, part.title)


def put_part(revision: Revision, part: Part, quantity: Decimal) -> None:
    insert_line(
        revision,
        kind=Line.Kind.PART,
        title=part.title,
        tax_class=part.tax_class or "part",
        part=part,
        quantity=quantity,
        returnable=part.returnable,
    )


@transaction.atomic
def add_text(
    *,
    actor: Actor,
    quote: Quote,
    title: str,
    quantity: Decimal,
    unit_price: Decimal,
    tax_class: str,
    core: bool = False,
    supplied: bool = False,
    fitted_by: str = "",
) -> Revision:
    """Adds a line that a person has written by hand.

    With `core` it is a core deposit; with `supplied` a part that the customer brings, which the operation `fitted_by`
    fits.
    """
    check_supplied(supplied, unit_price)
    revision = open_draft(quote=quote)
    draft_rules.check_tax_class(revision, tax_class)
    line = insert_line(
        revision,
        kind=Line.Kind.TEXT,
        title=title,
        tax_class=tax_class,
        quantity=quantity,
        unit_price=unit_price,
        core=core,
        supplied=supplied,
        operation=_operation(actor, fitted_by),
    )
    return changed_draft(actor, revision, "line added", {"line": ["", line.title]}, line.title)


def insert_line(revision: Revision, *, quantity: Decimal = Decimal(1), **fields: Any) -> Line:
    last = Line.objects.filter(shop=revision.shop, revision=revision).aggregate(last=Max("position"))["last"] or 0
    line = Line(shop=revision.shop, revision=revision, position=last + 1, quantity=quantity, **fields)
    line.clean_fields()
    line.save(force_insert=True)
    number_quote(revision.quote)
    return line


def number_quote(quote: Quote) -> None:
    """Gives a quote the shop's next number with its first line, so that an empty quote uses none."""
    if quote.number is not None:
        return
    shop = Shop.objects.select_for_update().get(pk=quote.shop_id)
    quote.number = shop.next_quote
    shop.next_quote += 1
    shop.save(update_fields=["next_quote"])
    quote.save(update_fields=["number"])


@transaction.atomic
def change_line(*, actor: Actor, quote: Quote, line: Line, seen: int, changes: Mapping[str, Any]) -> Revision:
    """Changes title, quantity, unit_price or tax_class of a loose part or a hand-written line.

    A part's own price comes with a reason (`because`); None goes back to the price worked out. Of a kit only
    OF_KITS can be changed; OF_PARTS are of parts alone. `option` makes any line part of an
    option, None takes it out.
    """
    revision = open_draft(quote=quote, seen=seen)
    _refuse_unfit(line, changes)
    if changes.get("tax_class", line.tax_class) != line.tax_class:
        draft_rules.check_tax_class(revision, changes["tax_class"])
    changes = with_reason(line, changes)
    if "fitted_by" in changes:
        changes["operation"] = _operation(actor, changes.pop("fitted_by"))
    changes |= of_supplied(line, changes)
    before = {field: str(getattr(line, field)) for field in changes}
    for field, value in changes.items():
        setattr(line, field, value)
    clean_reason(line, changes)
    line.save(update_fields=list(changes))
    if line.kind == Line.Kind.KIT and line.supplied:  # a price of the workshop's own went with its goods
        Override.objects.filter(shop=revision.shop, revision=revision, figure=f"kit:{line.pk}").delete()
    return changed_draft(
        actor, revision, "line changed", {f: [before[f], str(changes[f])] for f in changes}, line.title
    )


def _refuse_unfit(line: Line, changes: Mapping[str, Any]) -> None:
    """Refuses a change of a fact that lines of this kind do not have, or that is changed elsewhere."""
    if line.kind == Line.Kind.KIT and set(changes) - OF_KITS:
        raise RequestError(409, "kit-line-fixed")
    if line.kind != Line.Kind.KIT and "fitted_before" in changes:
        raise field_error("/fitted_before", "fitted_kits_only")
    if line.kind != Line.Kind.PART and (of_parts := sorted(OF_PARTS & set(changes))):
        raise field_error(f"/{of_parts[0]}", "parts_only")
    if line.kind != Line.Kind.TEXT and "core" in changes:
        raise field_error("/core", "written_only")
    if line.kind not in LOOSE and (of_loose := sorted(OF_LOOSE & set(changes))):
        raise field_error(f"/{of_loose[0]}", "written_only")
    if line.kind not in (*LOOSE, Line.Kind.KIT) and "supplied" in changes:
        raise field_error("/supplied", "written_only")
    if "returnable" in changes and line.kind not in BOUGHT:
        raise field_error("/returnable", "bought_only")
    if line.kind == Line.Kind.OUTSIDE and set(changes) - {"option", "returnable"}:
        raise RequestError(409, "outside-line-elsewhere")
    if line.kind == Line.Kind.LABOUR and set(changes) - {"option"}:
        raise RequestError(409, "labour-line-fixed" if line.certain else "contingency-elsewhere")


def _operation(actor: Actor, code: str) -> Operation | None:
    """The shop's operation of that code; None for none. Refuses a code that it does not have."""
    if not code:
        return None
    operation = Operation.objects.filter(shop=actor.shop, code=code).first()
    if operation is None:
        raise field_error("/fitted_by", "no_such_operation")
    return operation


@transaction.atomic
def remove_line(*, actor: Actor, quote: Quote, line: Line, seen: int) -> Revision:
    """Removes a line together with its overrides."""
    revision = open_draft(quote=quote, seen=seen)
    keys = (f"kit:{line.pk}", f"outside:{line.pk}", f"labour:{WORK}{line.pk.hex}")
    Override.objects.filter(shop=revision.shop, revision=revision, figure__in=keys).delete()
    title = line.title
    line.delete()
    return changed_draft(actor, revision, "line removed", {"line": [title, ""]}, title)
