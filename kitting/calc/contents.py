"""Contents of a kit revision for a vehicle, place by place, and the pull lines built from them.

The explosion gives the places and quantities; this module adds the words and numbers of each place.
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
"""Roles of parts in the box that no step depends on."""
PullKind = Literal["box", "beside", "need", "reused"]


@dataclass(frozen=True, slots=True)
class PartFacts:
    """A part as people refer to it. Its quantities are in `unit`."""

    id: UUID
    number: str
    title: str
    unit: str


@dataclass(frozen=True, slots=True)
class Place:
    """One line of the contents list: a carton, a bag or a part. `position` is its place in reading order."""

    kind: str
    label: str
    position: int
    role: str = ""
    operation: str = ""


@dataclass(frozen=True, slots=True)
class RefittedPart:
    """A part that comes off at one operation and goes back on at another (their codes, or empty)."""

    title: str
    quantity: Decimal
    off_at: str
    back_at: str


@dataclass(frozen=True, slots=True)
class KitContents:
    """The contents of a kit. `contents` refers to nodes in `places` and part numbers in `parts`.

    `whole` is the article as which the kit is bought.
    """

    kit: str
    whole: PartFacts
    contents: Contents
    places: Mapping[str, Place]
    parts: Mapping[str, PartFacts]
    reused: tuple[RefittedPart, ...] = ()


@dataclass(frozen=True, slots=True)
class PullNeed:
    """A need that the kit does not include: `quantity` whole packs, or single-use parts.

    `detail` is the reason as JSON.
    """

    part_id: UUID
    number: str
    title: str
    quantity: Decimal
    unit: str
    operation: str = ""
    detail: Mapping[str, object] | None = None


@dataclass(frozen=True, slots=True)
class DraftLine:
    """The values of a pull line before the row is written."""

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
    """The number of pieces that a person counts: hose, tape and fluid count as one piece or pack."""
    return ceil(quantity) if unit in COUNTED_IN else 1


def box_lines(kit: KitContents, copy: int) -> tuple[DraftLine, ...]:
    """One line for each place, in reading order. A kit with unknown contents is one line: the box itself.

    `copy` is the place of the kit among those of the list. It distinguishes two copies of one kit.
    """
    if not kit.places:
        return (_line("box", kit, kit.whole, Place("part", "", 1), copy),)
    inside = [_placed(kit, "box", line, copy) for line in kit.contents.lines]
    beside = [_placed(kit, "beside", line, copy) for line in kit.contents.other_lines]
    nodes = [line.node for line in (*kit.contents.lines, *kit.contents.other_lines)]
    drafts = sorted(zip(nodes, [*inside, *beside], strict=True), key=lambda entry: kit.places[entry[0]].position)
    return tuple(draft for _, draft in drafts)


def needed_for(line: DraftLine, first: str, work: Collection[str]) -> DraftLine:
    """The line, tied to `first` (its kit's first step) if it names no step of the `work` and is no spare or paper."""
    minor = dict(line.detail or {}).get("role") in MINOR_ROLES
    return line if minor or line.operation in work else replace(line, operation=first)


def need_line(need: PullNeed) -> DraftLine:
    """The pull line of a need."""
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
    """One pull line for each part that is refitted."""
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
    """(carton, bag): the innermost of each on the path."""
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
