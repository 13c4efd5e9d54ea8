"""Several prices side by side: one attribute of the vehicle is the rows, another the two columns."""

from collections.abc import Sequence
from dataclasses import dataclass

from quotes.calc.combinations import Combination, Values, count
from quotes.calc.forms import FrozenContent
from quotes.presenters.possible_prices import PriceRow
from quotes.presenters.undecided import stated_words

FIGURE, WORD = 10, 9
"""The most characters of an amount and of a single word for which a phone has the width of three columns."""


@dataclass(frozen=True, slots=True)
class GridRow:
    """The prices of one value, in the order of the columns."""

    title: str
    prices: Sequence[PriceRow]


@dataclass(frozen=True, slots=True)
class PriceGrid:
    """Two columns, so that a phone shows both. Each row has a price for each column."""

    columns: Sequence[str]
    rows: Sequence[GridRow]


def grid_of(document: FrozenContent, prices: Sequence[PriceRow]) -> PriceGrid | None:
    """None where the prices need a row each.

    That is where one attribute is open, where none of them has two values, where a combination is missing, where an
    amount or a word is too wide for a phone, and where a price cannot be accepted, because its reason needs the room.
    A frozen text whose words differ from today's keeps its own words, a row each.
    """
    if not all(_narrow(row) and row.open and not row.unfit for row in prices):
        return None
    combinations = [tuple((name, value) for name, value in price["stated"]) for price in document.get("possible", ())]
    values: dict[str, Values] = {}
    for name, value in (pair for combination in combinations for pair in combination):
        values[name] = tuple(dict.fromkeys([*values.get(name, ()), value]))
    across = next((name for name in reversed(values) if len(values[name]) == 2), None)
    complete = len(set(combinations)) == len(combinations) == count(values)
    if len(values) < 2 or across is None or not complete:
        return None
    if any(
        stated_words(combination, values) != row.words for combination, row in zip(combinations, prices, strict=True)
    ):
        return None
    rows: dict[Combination, dict[str | None, PriceRow]] = {}
    for combination, price in zip(combinations, prices, strict=True):
        others = tuple(pair for pair in combination if pair[0] != across)
        rows.setdefault(others, {})[dict(combination)[across]] = price
    return PriceGrid(
        columns=[stated_words(((across, value),), values) for value in values[across]],
        rows=[
            GridRow(stated_words(others, values), [of_row[value] for value in values[across]])
            for others, of_row in rows.items()
        ],
    )


def _narrow(price: PriceRow) -> bool:
    return len(price.gross) <= FIGURE and all(len(word) <= WORD for word in price.words.replace(",", " ").split())
