"""(actor, id) -> row of kitting or 404; QuerySets for lists. The only way a view gets these rows."""

from typing import Any
from uuid import UUID

from django.db.models import Count, OuterRef, Prefetch, Q, Subquery
from django.http import Http404
from django.shortcuts import get_object_or_404

from kitting.models import Consumable, Kit, KitLine, KitRevision, OutsideEvent, Part, PullList, Supplier
from shop.access import MANAGER, Actor, open_jobs, shop_row
from shop.models import TemplateStep


def kit(actor: Actor, id: UUID | str) -> Kit:
    return shop_row(Kit, actor, id, "part", "part__preferred")


def kits(actor: Actor) -> Any:
    return Kit.objects.filter(shop=actor.shop)


def kits_with_newest_revision(actor: Actor) -> Any:
    """Kits with `newest`, a list holding the newest revision with the numbers of its part and carton lines.

    `asking` holds that revision's lines with conditions, `asking_steps` the labour template's steps with conditions.
    """
    same = KitRevision.objects.filter(shop=OuterRef("shop"), kit=OuterRef("kit")).order_by("-number")
    newest = KitRevision.objects.filter(pk=Subquery(same.values("pk")[:1])).select_related("labour")
    counted = newest.annotate(
        part_lines=Count("lines", filter=Q(lines__kind="part")),
        carton_lines=Count("lines", filter=Q(lines__kind="carton")),
    )
    asking = Prefetch("lines", KitLine.objects.exclude(conditions=[]), to_attr="asking")
    steps = Prefetch("labour__steps", TemplateStep.objects.exclude(conditions=[]), to_attr="asking_steps")
    revisions = Prefetch("revisions", counted.prefetch_related(asking, steps), to_attr="newest")
    return kits(actor).select_related("shop", "part", "part__preferred").prefetch_related(revisions)


def kit_with_newest_revision(actor: Actor, id: UUID | str) -> Kit:
    row: Kit | None = kits_with_newest_revision(actor).filter(pk=id).first()
    if row is None:
        raise Http404
    return row


def kit_revision(kit: Kit, number: int | None) -> KitRevision | None:
    """The version of the kit with that number, the newest without one; None if there is none."""
    rows = KitRevision.objects.filter(shop=kit.shop_id, kit=kit, **({} if number is None else {"number": number}))
    row = rows.select_related("shop", "labour", "kit__part__preferred").order_by("-number").first()
    return row


def pull_list(actor: Actor, id: UUID | str, *related: str) -> PullList:
    """The list, with the `related` rows. It may be the list of a kit copy that belongs to no job."""
    return shop_row(PullList, actor, id, *related)


def pull_list_of_job(actor: Actor, id: UUID | str, *related: str) -> PullList:
    """The list with its job, customer and vehicle."""
    row: PullList = get_object_or_404(pull_lists(actor).select_related(*related), pk=id)
    return row


def pull_list_to_show(actor: Actor, id: UUID | str) -> PullList:
    """The list without its lines and with only the columns that the phone shows, which polls every 20 seconds."""
    rows: Any = pull_lists(actor)
    names = ("job__number", "job__customer__name", "job__vehicle__title")
    row: PullList = get_object_or_404(rows.only("state", "last_seq", "version", "facts", *names), pk=id)
    return row


def pull_lists(actor: Actor) -> Any:
    """The lists of jobs. The list of a kit copy without a job can be counted, but no screen shows it yet."""
    rows = PullList.objects.filter(shop=actor.shop, job__isnull=False)
    return rows.select_related("job", "job__customer", "job__vehicle")


def pull_lists_of_open_jobs(actor: Actor, most: int) -> Any:
    """The lists of the `most` newest open jobs."""
    newest = open_jobs(actor).order_by("-number").values_list("pk", flat=True)[:most]
    rows = PullList.objects.filter(shop=actor.shop, job__in=list(newest))
    return rows.select_related("job", "job__customer", "job__vehicle")


def part(actor: Actor, id: UUID | str) -> Part:
    return shop_row(Part, actor, id)


def replaced_part(actor: Actor, id: UUID | str) -> Part:
    """The part with the one that replaces it; 404 if none does."""
    row: Part = get_object_or_404(replaced_parts(actor), pk=id)
    return row


def replaced_parts(actor: Actor) -> Any:
    """Parts with the one that replaces each. For "is not null" SQLite would read all parts in their order."""
    return Part.objects.filter(shop=actor.shop, superseded_by__gt=UUID(int=0)).select_related("superseded_by")


def supplier(actor: Actor, id: UUID | str) -> Supplier:
    return shop_row(Supplier, actor, id)


def suppliers(actor: Actor) -> Any:
    return Supplier.objects.filter(shop=actor.shop)


def consumable(actor: Actor, id: UUID | str) -> Consumable:
    return shop_row(Consumable, actor, id)


def consumables(actor: Actor) -> Any:
    """Consumables with `current_packs`, a list of their packs in use, the smallest first."""
    current = packs(actor).filter(archived=False).order_by("pack_size", "number")
    return Consumable.objects.filter(shop=actor.shop).prefetch_related(
        Prefetch("packs", current, to_attr="current_packs")
    )


def pack(actor: Actor, consumable: Consumable, id: UUID | str) -> Part:
    row: Part = get_object_or_404(packs(actor).filter(consumable=consumable), pk=id)
    return row


def packs(actor: Actor) -> Any:
    return Part.objects.filter(shop=actor.shop, kind="pack")


def may_undo_outside(actor: Actor, row: OutsideEvent) -> bool:
    """Returns whether the actor recorded the entry, or is a manager, who may undo anybody's."""
    return actor.member is not None and (row.recorded_by_id == actor.member.pk or actor.role == MANAGER)
