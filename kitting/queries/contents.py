"""Reads the contents of kits for a vehicle, with one query for each kind of row."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from uuid import UUID

from kitting.calc.contents import KitContents, PartFacts, Place, RefittedPart
from kitting.calc.explosion import ChildLine, Condition, Contents, KitTree, Node, flatten
from kitting.models import KitLine, KitRevision, Part, ReusedPart
from shop.models import Shop

ROOT = "kit"
NOTHING = Contents(parts={}, paths={}, decide=(), other={}, lines=(), other_lines=())


def kit_contents(
    shop: Shop, revisions: Iterable[UUID], vehicle: Mapping[str, str | None], reused: bool = False
) -> dict[UUID, KitContents]:
    """{revision: contents for the vehicle}, with the newest number of each part. Raises what `flatten` raises."""
    ids = set(revisions)
    rows = KitRevision.objects.filter(shop=shop, pk__in=ids).select_related("kit", "kit__part")
    lines = _lines_by_revision(shop, ids)
    newer = superseded_by(shop)
    replacements = _replacements(shop, lines, newer)
    back = _reused_by_revision(shop, ids) if reused else {}
    return {
        row.pk: _contents(row, lines.get(row.pk, []), vehicle, newer, replacements, back.get(row.pk, ()))
        for row in rows
    }


def superseded_by(shop: Shop) -> dict[str, str]:
    """{number: the number that replaced it}, for the whole shop."""
    replaced = Part.objects.filter(shop=shop, superseded_by__isnull=False)
    return dict(replaced.values_list("number", "superseded_by__number"))


def calc_kit(lines: Sequence[KitLine], vehicle: Mapping[str, str | None], superseded_by: Mapping[str, str]) -> KitTree:
    """The input of the explosion from the lines of one revision, with their parts, in reading order."""
    children: dict[str, list[ChildLine]] = defaultdict(list)
    for line in lines:
        above = str(line.parent_id) if line.parent_id else ROOT
        children[above].append(ChildLine(str(line.pk), line.quantity, conditions(line.conditions), _ships(line)))
    nodes = {ROOT: Node(children=tuple(children[ROOT]))}
    for line in lines:
        number = line.part.number if line.part else None
        nodes[str(line.pk)] = Node(part=number, children=tuple(children[str(line.pk)]))
    return KitTree(ROOT, nodes, vehicle, superseded_by)


def conditions(when: Iterable[Mapping[str, Any]]) -> tuple[Condition, ...]:
    """The conditions of the explosion from the stored [{"attribute", "in"}]."""
    return tuple(Condition(condition["attribute"], tuple(condition["in"])) for condition in when)


def _ships(line: KitLine) -> Any:
    return str(line.ships)


def _lines_by_revision(shop: Shop, ids: set[UUID]) -> dict[UUID, list[KitLine]]:
    by_revision: dict[UUID, list[KitLine]] = defaultdict(list)
    rows = KitLine.objects.filter(shop=shop, revision__in=ids).select_related("part", "operation")
    for line in rows.order_by("position"):
        by_revision[line.revision_id].append(line)
    return by_revision


def _replacements(
    shop: Shop, lines: Mapping[UUID, Sequence[KitLine]], newer: Mapping[str, str]
) -> dict[str, PartFacts]:
    """The parts that replace others. No query if no part was replaced."""
    replaced = {line.part.number for rows in lines.values() for line in rows if line.part} & set(newer)
    if not replaced:
        return {}
    rows = Part.objects.filter(shop=shop, number__in=set(newer.values()))
    return {row.number: part_facts(row) for row in rows}


def part_facts(part: Part) -> PartFacts:
    return PartFacts(part.pk, part.number, part.title, part.unit)


def _reused_by_revision(shop: Shop, ids: set[UUID]) -> dict[UUID, tuple[RefittedPart, ...]]:
    by_revision: dict[UUID, list[RefittedPart]] = defaultdict(list)
    rows = ReusedPart.objects.filter(shop=shop, revision__in=ids).select_related("off_at", "back_at")
    for row in rows.order_by("position"):
        by_revision[row.revision_id].append(
            RefittedPart(
                title=row.title,
                quantity=row.quantity,
                off_at=row.off_at.code if row.off_at else "",
                back_at=row.back_at.code if row.back_at else "",
            )
        )
    return {revision: tuple(parts) for revision, parts in by_revision.items()}


def _contents(
    revision: KitRevision,
    lines: Sequence[KitLine],
    vehicle: Mapping[str, str | None],
    newer: Mapping[str, str],
    replacements: Mapping[str, PartFacts],
    reused: tuple[RefittedPart, ...],
) -> KitContents:
    return KitContents(
        kit=revision.kit.code,
        whole=part_facts(revision.kit.part),
        contents=flatten(calc_kit(lines, vehicle, newer)) if lines else NOTHING,
        places={str(line.pk): _place(line) for line in lines},
        parts={**replacements, **{line.part.number: part_facts(line.part) for line in lines if line.part}},
        reused=reused,
    )


def _place(line: KitLine) -> Place:
    operation = line.operation.code if line.operation else ""
    return Place(str(line.kind), line.label, line.position, str(line.role) if line.part else "", operation)
