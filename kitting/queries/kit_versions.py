"""Reads the versions of a kit: their contents, the items that are compared, and the files that they come from."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from uuid import UUID

from kitting.calc.kit_changes import KitItem
from kitting.models import Kit, KitLine, KitOutside, KitRevision, Need, Part, ReusedPart

ONE = Decimal(1)
MOST_FILES = 50


@dataclass(frozen=True, slots=True)
class VersionContents:
    """The rows of a version, each kind in its order."""

    lines: tuple[KitLine, ...]
    needs: tuple[Need, ...]
    reused: tuple[ReusedPart, ...]
    outside: tuple[KitOutside, ...]


def version_contents(kit: Kit, revision: KitRevision | None) -> VersionContents:
    """The contents of a version; empty for a kit without one."""
    below = {"shop": kit.shop_id, "revision": revision}
    works = KitOutside.objects.filter(**below).select_related("firm", "starts_after", "needed_by")
    return VersionContents(
        lines=tuple(KitLine.objects.filter(**below).select_related("part", "operation").order_by("position")),
        needs=tuple(
            Need.objects.filter(**below).select_related("consumable", "part", "operation").order_by("position")
        ),
        reused=tuple(ReusedPart.objects.filter(**below).select_related("off_at", "back_at").order_by("position")),
        outside=tuple(works.order_by("position")),
    )


def versions_with_files(kit: Kit) -> list[KitRevision]:
    """The newest versions that were imported from a file. The bytes of the files are not read."""
    rows = KitRevision.objects.filter(shop=kit.shop_id, kit=kit, file__isnull=False).select_related("file")
    names = rows.only("number", "shop", "file__shop", "file__file_name", "file__dropped_at")
    return list(names.order_by("-number")[:MOST_FILES])


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
