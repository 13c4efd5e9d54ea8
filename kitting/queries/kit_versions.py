"""Reads the versions of a kit as the items that are compared."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from uuid import UUID

from kitting.calc.kit_changes import KitItem
from kitting.models import Kit, KitLine, KitOutside, KitRevision, Need, Part, ReusedPart

ONE = Decimal(1)


def items_of(kit: Kit, revisions: Sequence[KitRevision]) -> dict[UUID, list[KitItem]]:
    """{version: its items in their order}, in as many queries for one version as for several."""
    items: dict[UUID, list[KitItem]] = {revision.pk: [] for revision in revisions}
    below = {"shop": kit.shop_id, "revision__in": list(items)}
    lines = KitLine.objects.filter(**below).select_related("part", "operation").order_by("position")
    for revision, item in _contents(list(lines)):
        items[revision].append(item)
    for need in Need.objects.filter(**below).select_related("consumable", "part", "operation").order_by("position"):
        items[need.revision_id].append(_need(need))
    for reused in ReusedPart.objects.filter(**below).order_by("position"):
        items[reused.revision_id].append(KitItem("reused", reused.title, reused.title, reused.quantity))
    for work in KitOutside.objects.filter(**below).order_by("position"):
        items[work.revision_id].append(KitItem("outside", work.title, work.title, ONE))
    return items


def _contents(lines: Sequence[KitLine]) -> Iterator[tuple[UUID, KitItem]]:
    places = {line.pk: line for line in lines}
    for line in lines:
        if line.part is None:
            continue
        conditions = tuple((condition["attribute"], *condition["in"]) for condition in line.conditions)
        yield (
            line.revision_id,
            KitItem(
                "line",
                (line.part_id, line.role, conditions),
                f"{line.part.number} {line.part.title}",
                line.quantity,
                line.part.unit,
                _place(line, places),
                line.operation.code if line.operation else "",
                line.ships,
            ),
        )


def _place(line: KitLine, places: dict[UUID, KitLine]) -> tuple[str, str]:
    """(carton, bag) of the line, each empty where there is none."""
    labels = {"carton": "", "bag": ""}
    parent = line.parent_id
    while parent is not None:
        holder = places[parent]
        labels[holder.kind], parent = holder.label, holder.parent_id
    return labels["carton"], labels["bag"]


def _need(need: Need) -> KitItem:
    thing = need.consumable or need.part
    assert thing is not None, "the database keeps one of the two"
    operation = need.operation.code if need.operation else ""
    name = thing.title if isinstance(thing, Part) else str(thing)
    return KitItem("need", (thing.pk, need.rule, need.basis), name, need.quantity, thing.unit, operation=operation)
