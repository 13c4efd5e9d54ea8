"""Begins the next revision of a quote: a draft with the choices of the revision before.

It is priced by the rules in force on that day and has the newest version of each kit.
"""

from collections.abc import Iterable, Mapping
from uuid import UUID

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from kitting.models import KitRevision
from quotes import access
from quotes.calc.forms import FrozenContent
from quotes.calc.priced_labour import WORK
from quotes.documents.begun import begun_lines
from quotes.models import Line, OutsideWork, Override, Quote, Revision, TakenOff
from quotes.queries.changes import chosen_off
from quotes.queries.pricing import shop_day
from quotes.services.choices import copy_choices
from quotes.services.drafts import freeze_kit, insert_line, keep_total, new_draft
from quotes.services.line_photographs import copy_photographs
from quotes.services.own_figures import DISCOUNT
from shop.access import Actor, rules_on
from shop.calc.rules import Rules
from shop.errors import RequestError
from shop.services import feed, history
from shop.services.search_words import keep_words

OF_VERSION = (*DISCOUNT, "charges", "customer_note")  # fields that a version has from the one before


@transaction.atomic
def revise(*, actor: Actor, quote: Quote) -> Revision:
    """Adds a draft with the choices of the newest revision. The sent one stays valid until the new one is sent."""
    quote = access.locked(quote)
    old = access.current(quote)
    if old.state in (Revision.State.DRAFT, Revision.State.ACCEPTED):
        raise RequestError(409, "cannot-revise")
    rules = rules_on(quote.shop, shop_day(quote.shop, timezone.now())) or old.rules
    if quote.additional:  # a change keeps the rules of its job
        rules = old.rules
    condition = Rules.from_json(rules.rules).known_condition(old.condition)
    new = new_draft(
        actor,
        quote,
        rules,
        number=old.number + 1,
        condition=condition,
        here=old.here,
        here_from=old.here_from,
    )
    for name in OF_VERSION:
        setattr(new, name, getattr(old, name))
    new.save(update_fields=OF_VERSION)
    moved, newer_kits = copy_chosen(old, new)
    TakenOff.objects.bulk_create(
        TakenOff(shop=new.shop, revision=new, source_id=source, item=item) for source, item in chosen_off(old)
    )
    _copy_overrides(old, new, moved)
    keep_total(new)
    new.begun = begun_lines(new.worked_out, newer_kits)
    new.save(update_fields=["begun"])
    history.record(actor=actor, verb="revised", row=new)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return new


def copy_chosen(
    old: Revision, new: Revision, *, same_vehicle: bool = True
) -> tuple[dict[str, str], list[FrozenContent]]:
    """Copies the chosen lines, each kit in its newest version.

    For another vehicle loose parts go without their own prices, and no photograph is shown to the customer.

    Returns {old line id: new line id}, and the kits that have a newer version than before.
    """
    moved, options = {}, copy_choices(old, new)
    newer_kits: list[FrozenContent] = []
    chosen = (Line.Kind.KIT, Line.Kind.PART, Line.Kind.TEXT, Line.Kind.OUTSIDE)
    labour = Q(kind=Line.Kind.LABOUR) & ~Q(skill="")
    rows = Line.objects.filter(Q(kind__in=chosen) | labour | Q(certain=False), shop=old.shop, revision=old)
    lines = list(rows.select_related("kit_revision__kit", "part", "operation").order_by("position"))
    newest = _newest_kits(old, lines)
    for line in lines:
        kit = newest.get(line.kit_revision.kit_id) if line.kit_revision else None
        if kit and line.kit_revision and kit.pk != line.kit_revision_id:
            freeze_kit(kit)
            newer_kits.append({"title": kit.kit.title, "before": line.kit_revision.number, "after": kit.number})
        own_price = same_vehicle and line.override_reason
        copy = insert_line(
            new,
            kind=line.kind,
            title=line.title,
            tax_class=line.tax_class,
            kit_revision=kit,
            part=line.part,
            quantity=line.quantity,
            fitted_before=line.fitted_before,
            part_condition=line.part_condition,
            original=line.original,
            core=line.core,
            supplied=line.supplied,
            returnable=line.returnable,
            operation=line.operation if line.supplied or line.is_chosen_labour else None,
            certain=line.certain,
            cap=line.cap,
            event=line.event,
            skill=line.skill,
            option=options.get(line.option_id),
            unit_price=line.unit_price if line.kind == Line.Kind.TEXT or own_price or line.supplied else None,
            override_reason=line.override_reason if own_price else "",
        )
        moved[str(line.pk)] = str(copy.pk)
        moved[f"{WORK}{line.pk.hex}"] = f"{WORK}{copy.pk.hex}"
    _copy_outside(old, new, moved)
    copy_photographs(old, new, moved, visible=same_vehicle)
    return moved, newer_kits


def _newest_kits(old: Revision, lines: Iterable[Line]) -> dict[UUID, KitRevision]:
    """Maps each kit of these lines to its newest version."""
    kits = {line.kit_revision.kit_id for line in lines if line.kit_revision}
    rows = KitRevision.objects.filter(shop=old.shop, kit__in=kits).select_related("kit")
    return {row.kit_id: row for row in rows.order_by("number")}


def _copy_outside(old: Revision, new: Revision, moved: Mapping[str, str]) -> None:
    copies = OutsideWork.objects.bulk_create(
        OutsideWork(
            shop=new.shop,
            revision=new,
            line_id=UUID(moved[str(work.line_id)]),
            firm=work.firm,
            **{name: getattr(work, name) for name in OutsideWork.TERMS},
        )
        for work in OutsideWork.objects.filter(shop=old.shop, revision=old).select_related("firm")
    )
    if copies:
        keep_words(copies)


def _copy_overrides(old: Revision, new: Revision, moved: Mapping[str, str]) -> None:
    Override.objects.bulk_create(
        Override(
            shop=new.shop,
            revision=new,
            figure=f"{kind}:{moved.get(name, name)}",
            own_value=override.own_value,
            reason=override.reason,
        )
        for override in Override.objects.filter(shop=old.shop, revision=old)
        for kind, _, name in [override.figure.partition(":")]
    )
