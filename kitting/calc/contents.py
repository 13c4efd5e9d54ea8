"""The contents of one kit revision for one vehicle, place by place, and the pull lines they become.

The explosion says which places hold and how many; here stand the words and numbers of each place.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from math import ceil
from typing import Literal
from uuid import UUID

from kitting.calc.explosion import ContentLine, Contents

COUNTED_IN = ("pc", "set", "pair")
MINOR_ROLES = ("spare", "paper")
"""In the box, and no step cannot do without them."""
PullKind = Literal["box", "beside", "need", "reused"]


@dataclass(frozen=True, slots=True)
class PartFacts:
    """A part as people call it. Quantities of it are in `unit`."""

    id: UUID
    number: str
    title: str
    unit: str


@dataclass(frozen=True, slots=True)
class Place:
    """One line of the contents list: a carton, a bag or a part, at `position` in reading order."""

    kind: str
    label: str
    position: int
    role: str = ""
    operation: str = ""


@dataclass(frozen=True, slots=True)
class RefittedPart:
    """Comes off at one operation and goes back on at another (their codes, or nothing)."""

    title: str
    quantity: Decimal
    off_at: str
    back_at: str


@dataclass(frozen=True, slots=True)
class KitContents:
    """`contents` names nodes of `places` and part numbers of `parts`. `whole` is what the kit is bought as."""

    kit: str
    whole: PartFacts
    contents: Contents
    places: Mapping[str, Place]
    parts: Mapping[str, PartFacts]
    reused: tuple[RefittedPart, ...] = ()


@dataclass(frozen=True, slots=True)
class PullNeed:
    """A need that the kit does not bring: `quantity` whole packs, or one-use parts. `detail` says why, as JSON."""

    part_id: UUID
    number: str
    title: str
    quantity: Decimal
    unit: str
    operation: str = ""
    detail: Mapping[str, object] | None = None


@dataclass(frozen=True, slots=True)
class DraftLine:
    """A pull line before it is a row."""

    kind: PullKind
    part_id: UUID | None
    number: str
    title: str
    quantity: Decimal
    unit: str
    copy: int | None = None  # the kit's place among those of the list
    kit: str = ""
    carton: str = ""
    bag: str = ""
    operation: str = ""
    detail: Mapping[str, object] | None = None


def pieces(quantity: Decimal, unit: str) -> int:
    """How many pieces a person counts: hose, tape and fluid are counted as the one piece or pack they come as."""
    return ceil(quantity) if unit in COUNTED_IN else 1


def box_lines(kit: KitContents, copy: int) -> tuple[DraftLine, ...]:
    """One line a place, in reading order; a kit whose contents nobody knows yet is one line, the box itself.

    `copy` is the kit's place among those of the list, which tells two of the same apart.
    """
    if not kit.places:
        return (_line("box", kit, kit.whole, Place("part", "", 1), copy),)
    inside = [_placed(kit, "box", line, copy) for line in kit.contents.lines]
    beside = [_placed(kit, "beside", line, copy) for line in kit.contents.other_lines]
    nodes = [line.node for line in (*kit.contents.lines, *kit.contents.other_lines)]
    drafts = sorted(zip(nodes, [*inside, *beside], strict=True), key=lambda entry: kit.places[entry[0]].position)
    return tuple(draft for _, draft in drafts)


def needed_for(line: DraftLine, first: str, work: Collection[str]) -> DraftLine:
    """The line; tied to `first`, its kit's first step, where it names none of the `work` and is no spare or paper."""
    minor = dict(line.detail or {}).get("role") in MINOR_ROLES
    return line if minor or line.operation in work else replace(line, operation=first)


def need_line(need: PullNeed) -> DraftLine:
    return DraftLine(
        kind="need",
        part_id=need.part_id,
        number=need.number,
        title=need.title,
        quantity=need.quantity,
        unit=need.unit,
        operation=need.operation,
        detail=need.detail,
    )


def reused_lines(kit: KitContents, copy: int) -> Iterator[DraftLine]:
    for reused in kit.reused:
        yield DraftLine(
            kind="reused",
            part_id=None,
            number="",
            title=reused.title,
            quantity=reused.quantity,
            unit="pc",
            copy=copy,
            kit=kit.kit,
            operation=reused.back_at,
            detail={"off_at": reused.off_at, "back_at": reused.back_at},
        )


def _placed(kit: KitContents, kind: PullKind, line: ContentLine, copy: int) -> DraftLine:
    carton, bag = _where(kit, line)
    drawn = _line(kind, kit, kit.parts[line.part], kit.places[line.node], copy)
    return replace(drawn, quantity=line.quantity, carton=carton, bag=bag)


def _where(kit: KitContents, line: ContentLine) -> tuple[str, str]:
    """(carton, bag): the innermost of each on the way."""
    carton = bag = ""
    for node in line.path:
        place = kit.places[node]
        if place.kind == "carton":
            carton = place.label
        else:
            bag = place.label
    return carton, bag


def _line(kind: PullKind, kit: KitContents, part: PartFacts, place: Place, copy: int) -> DraftLine:
    detail = {"role": place.role} if place.role not in ("", "fit") else {}
    return DraftLine(
        kind=kind,
        part_id=part.id,
        number=part.number,
        title=part.title,
        quantity=Decimal(1),
        unit=part.unit,
        copy=copy,
        kit=kit.kit,
        operation=place.operation,
        detail=detail,
    )
