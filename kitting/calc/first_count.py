"""The first list of a kit, from counts by hand that did not see each other.

A line stands once two counts agree on it. A whole count covers every line: a line that it does not name counts as zero.
A count of single lines covers those that it names. If such a count is the first to name a part, the whole counts before
it overlooked the part, so they do not contradict it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from shop.calc.keys import search_key

Amount = tuple[Decimal, str]  # (quantity, unit)
LineKey = tuple[str, str, str]
NOUNS = ("carton", "bag")


@dataclass(frozen=True, slots=True)
class HandCountedLine:
    """A part number in its place with what one person counted."""

    carton: str
    bag: str
    number: str
    quantity: Decimal
    unit: str

    @property
    def key(self) -> LineKey:
        """The line's name: "Bag 3" and "3" are one bag."""
        carton, bag = (
            search_key(label).removeprefix(noun) for label, noun in zip((self.carton, self.bag), NOUNS, strict=True)
        )
        return carton, bag, search_key(self.number)

    @property
    def amount(self) -> Amount | None:
        return (self.quantity, self.unit) if self.quantity else None


@dataclass(frozen=True, slots=True)
class HandCount:
    """One count. `whole`: of the whole kit, and not of single lines that were asked for."""

    whole: bool
    lines: tuple[HandCountedLine, ...]


@dataclass(frozen=True, slots=True)
class OpenLine:
    """A line on which no two counts agree. `counted` has an entry for each count; None: it did not cover the line."""

    line: HandCountedLine
    counted: tuple[Decimal | None, ...]


@dataclass(frozen=True, slots=True)
class FirstList:
    """The lines that stand, in the order in which they were first named, and those that are open."""

    lines: tuple[HandCountedLine, ...]
    open: tuple[OpenLine, ...]


def first_list(counts: Sequence[HandCount]) -> FirstList:
    """Compares the counts of one kit, in the order in which they were made."""
    named: dict[LineKey, tuple[int, HandCountedLine]] = {}
    for n, count in enumerate(counts):
        for line in count.lines:
            named.setdefault(line.key, (n, line))
    amounts = [{line.key: line for line in count.lines} for count in counts]
    standing: list[HandCountedLine] = []
    still_open: list[OpenLine] = []
    for key, (first, line) in named.items():
        covering = [_covers(counts, n, first, key in amounts[n]) for n in range(len(counts))]
        lines = [amounts[n].get(key) for n in range(len(counts)) if covering[n]]
        agreed = _agreed(line.amount if line else None for line in lines)
        if agreed is None:
            counted = tuple(_quantity(amounts[n].get(key)) if covering[n] else None for n in range(len(counts)))
            still_open.append(OpenLine(line, counted))
        elif agreed[0]:
            standing.append(HandCountedLine(line.carton, line.bag, line.number, *agreed))
    return FirstList(tuple(standing), tuple(still_open))


def _covers(counts: Sequence[HandCount], n: int, first: int, is_named: bool) -> bool:
    """Returns whether count n counted the line, which count `first` was the first to name."""
    overlooked = n < first and not counts[first].whole
    return is_named or (counts[n].whole and not overlooked)


NONE: Amount = (Decimal(0), "")


def _agreed(amounts: Iterable[Amount | None]) -> Amount | None:
    """The first amount on which two counts agree; None if no two do."""
    seen: set[Amount] = set()
    for amount in amounts:
        if (amount or NONE) in seen:
            return amount or NONE
        seen.add(amount or NONE)
    return None


def _quantity(line: HandCountedLine | None) -> Decimal:
    return line.quantity if line else Decimal(0)
