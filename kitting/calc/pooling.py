"""Allocation of counted pieces to steps: pieces of one part are interchangeable, whichever line they belong to.

Pieces are allocated in the order of the work. A step takes from its own line first.

Worked cases: fixtures/vectors/pooling.json. Units: whole pieces.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from kitting.calc.missing import Missing, NeededItem, needed_at, soonest


@dataclass(frozen=True, slots=True)
class PieceAllocation:
    """The need of one line at `step`, and the lines whose pieces meet it. `step` is None for a spare or a paper."""

    item: NeededItem
    step: str | None
    sources: tuple[tuple[NeededItem, int], ...]

    @property
    def shortfall(self) -> int:
        """The pieces that are still missing."""
        return self.item.need - sum(pieces for _, pieces in self.sources)


def allocate_pieces(
    items: Sequence[NeededItem], codes: Collection[str], order: Iterable[str]
) -> tuple[PieceAllocation, ...]:
    """One allocation for each line. `codes` are the job's operations in sheet order, `order` is the order of service.

    Spares and papers are served last: no step waits for them. Refuses nothing.
    """
    pools: dict[str, list[NeededItem]] = defaultdict(list)
    takers: dict[str | None, list[NeededItem]] = defaultdict(list)
    for item in items:
        pools[item.pool].append(item)
        takers[None if item.minor else needed_at(item, codes)].append(item)
    remaining = {item.line: item.have for item in items}
    turns: list[str | None] = [*order, None]
    return tuple(
        PieceAllocation(item, step, tuple(_taken(item, pools[item.pool], remaining)))
        for step in turns
        for item in takers[step]
    )


def _taken(
    taker: NeededItem, pool: Iterable[NeededItem], remaining: dict[str, int]
) -> Iterator[tuple[NeededItem, int]]:
    """The pieces taken: from the item's own line, then from lines with a surplus, then from any."""
    need = taker.need
    for item in sorted(pool, key=lambda source: (source.line != taker.line, remaining[source.line] <= source.need)):
        pieces = min(need, remaining[item.line])
        if pieces > 0:
            remaining[item.line] -= pieces
            need -= pieces
            yield item, pieces


def with_stops(missing: Sequence[Missing], allocations: Iterable[PieceAllocation]) -> tuple[Missing, ...]:
    """The missing lines with the operations that lack their pieces. The first arrivals go to the first operations."""
    lacking: dict[str, list[tuple[str | None, int]]] = defaultdict(list)
    for allocation in allocations:
        if allocation.shortfall:
            lacking[allocation.item.pool].append((allocation.step, allocation.shortfall))
    stops = {line.item.line: _share(line.pieces, lacking[line.item.pool]) for line in sorted(missing, key=soonest)}
    return tuple(replace(line, stops=stops[line.item.line]) for line in missing)


def _share(pieces: int, lacking: list[tuple[str | None, int]]) -> tuple[tuple[str, int], ...]:
    """Takes `pieces` from the front of `lacking`. Two lines of one step make one stop."""
    stops: dict[str, int] = {}
    while pieces and lacking:
        step, shortfall = lacking.pop(0)
        share = min(pieces, shortfall)
        pieces -= share
        if shortfall > share:
            lacking.insert(0, (step, shortfall - share))
        if step is not None:
            stops[step] = stops.get(step, 0) + share
    return tuple(stops.items())
