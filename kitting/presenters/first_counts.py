"""The first counts of a kit as an answer."""

from collections.abc import Sequence

from kitting.answers.first_counts import CountedDifferentlyOut, FirstCountOut, FirstCountsOut, FirstCountState
from kitting.calc.first_count import FirstList, OpenLine
from kitting.models import FirstCount
from kitting.queries.first_counts import compared
from shop.answers.base import utc
from shop.calc.quantity import plain


def first_counts_answer(counts: Sequence[FirstCount], revision: int | None, *, has_contents: bool) -> FirstCountsOut:
    """The answer on the counts of the newest series, with their authors."""
    first = compared(counts)
    state = _state(counts, first, has_contents)
    return FirstCountsOut(
        state=state,
        counts=[_count(count) for count in counts],
        differences=[_difference(line) for line in first.open] if state == "differ" else [],
        agreed=len(first.lines) if len(counts) > 1 else 0,
        revision=revision,
    )


def _state(counts: Sequence[FirstCount], first: FirstList, has_contents: bool) -> FirstCountState:
    if has_contents:
        return "made"
    if len(counts) < 2:
        return "waiting" if counts else "none"
    return "differ" if first.open else "nothing"


def _count(count: FirstCount) -> FirstCountOut:
    return FirstCountOut(
        number=count.number,
        by=count.author.user.name,
        at=utc(count.counted_at),
        whole=count.whole,
        lines=len(count.lines),
    )


def _difference(row: OpenLine) -> CountedDifferentlyOut:
    counted = [None if quantity is None else plain(quantity) for quantity in row.counted]
    return CountedDifferentlyOut(carton=row.line.carton, bag=row.line.bag, number=row.line.number, counted=counted)
