"""Which line's pieces each step gets: a bolt from another bag is as good (calculations.md, sections 7 and 9).

The pieces of one part are handed out in the order of the work, wherever they lie. A step takes from its own line first.

Worked cases: fixtures/vectors/pooling.json. Units: whole pieces.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from kitting.calc.missing import Missing, NeededItem, needed_at, soonest


@dataclass(frozen=True, slots=True)
class PieceAllocation:
    """One line's need at `step`, and the lines whose pieces meet it. `step` is None for a spare or a leaflet."""

    item: NeededItem
    step: str | None
    sources: tuple[tuple[NeededItem, int], ...]

    @property
    def lacks(self) -> int:
        return self.item.need - sum(pieces for _, pieces in self.sources)


def allocate_pieces(
    items: Sequence[NeededItem], codes: Collection[str], order: Iterable[str]
) -> tuple[PieceAllocation, ...]:
    """Each line once. `codes` are the job's operations in sheet order, `order` the one in which they are served.

    Spares and papers are served last: no step waits for them. Refuses nothing.
    """
    pools: dict[str, list[NeededItem]] = defaultdict(list)
    asking: dict[str | None, list[NeededItem]] = defaultdict(list)
    for item in items:
        pools[item.pool].append(item)
        asking[None if item.minor else needed_at(item, codes)].append(item)
    left = {item.line: item.have for item in items}
    turns: list[str | None] = [*order, None]
    return tuple(
        PieceAllocation(item, step, tuple(_taken(item, pools[item.pool], left)))
        for step in turns
        for item in asking[step]
    )


def _taken(asking: NeededItem, pool: Iterable[NeededItem], left: dict[str, int]) -> Iterator[tuple[NeededItem, int]]:
    """From its own line, then from one that has more than it needs, then from any."""
    need = asking.need
    for item in sorted(pool, key=lambda each: (each.line != asking.line, left[each.line] <= each.need)):
        pieces = min(need, left[item.line])
        if pieces > 0:
            left[item.line] -= pieces
            need -= pieces
            yield item, pieces


def with_stops(missing: Sequence[Missing], handed: Iterable[PieceAllocation]) -> tuple[Missing, ...]:
    """The missing lines with the operations that lack their pieces: what comes first serves the first of them."""
    lacking: dict[str, list[tuple[str | None, int]]] = defaultdict(list)
    for each in handed:
        if each.lacks:
            lacking[each.item.pool].append((each.step, each.lacks))
    stops = {each.item.line: _share(each.pieces, lacking[each.item.pool]) for each in sorted(missing, key=soonest)}
    return tuple(replace(each, stops=stops[each.item.line]) for each in missing)


def _share(pieces: int, lacking: list[tuple[str | None, int]]) -> tuple[tuple[str, int], ...]:
    """Takes `pieces` off the front of `lacking`; two lines of one step are one stop."""
    stops: dict[str, int] = {}
    while pieces and lacking:
        step, lacks = lacking.pop(0)
        taken = min(pieces, lacks)
        pieces -= taken
        if lacks > taken:
            lacking.insert(0, (step, lacks - taken))
        if step is not None:
            stops[step] = stops.get(step, 0) + taken
    return tuple(stops.items())
