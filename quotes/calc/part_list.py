"""Reads a list of part numbers and quantities from pasted text: of a spreadsheet, of a mail, or one typed line."""

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import Literal

from shop.calc.keys import search_key

MOST_LINES = 200
LONGEST_NUMBER = 4  # words of a number that is written with spaces
HEADINGS = frozenset(("number", "part", "partnumber", "partno", "no", "quantity", "qty", "pcs", "description", "title"))
SUMS = frozenset(("total", "sum", "subtotal"))
QUANTITY = re.compile(
    r"(?:[x×]\s*)?(\d{1,5}(?:[.,]\d{1,4})?)\s*(?:[x×]|pcs?\.?|pieces?|off|ea\.?|each|no\.?|m|l|litres?|sets?)?",
    re.IGNORECASE,
)
Reading = Literal["understood", "unknown", "no_quantity", "left_out"]


@dataclass(frozen=True, slots=True)
class TextLine:
    """A line of the text with its number, counted from 1, and its cells."""

    row: int
    text: str
    cells: tuple[str, ...]

    @property
    def candidates(self) -> tuple[str, ...]:
        """The texts that may be the part number, the likeliest first: longer joins of cells before single ones."""
        spans = (
            " ".join(self.cells[start : start + width])
            for width in range(min(LONGEST_NUMBER, len(self.cells)), 0, -1)
            for start in range(len(self.cells) - width + 1)
        )
        return tuple(span for span in spans if search_key(span))


@dataclass(frozen=True, slots=True)
class ListedPart:
    """A line as it was understood. `part` is the key that `by_key` gave; `number` what the line calls it."""

    row: int
    text: str
    reading: Reading
    number: str
    part: str | None
    quantity: Decimal


def text_lines(text: str) -> tuple[TextLine, ...]:
    """The lines that have a character, at most MOST_LINES and one more, so that the caller sees that there are more."""
    lines = (
        TextLine(row, line.strip(), _cells(line)) for row, line in enumerate(text.splitlines(), start=1) if line.strip()
    )
    return tuple(line for line, _ in zip(lines, range(MOST_LINES + 1), strict=False))


def _cells(line: str) -> tuple[str, ...]:
    """The cells of a line: of a spreadsheet between tabs or semicolons, else its words."""
    separator = "\t" if "\t" in line else ";" if ";" in line else None
    cells = (cell.strip().strip('"') for cell in line.split(separator))
    return tuple(cell for cell in cells if cell)


def read_part_list(lines: Iterable[TextLine], by_key: Mapping[str, str]) -> tuple[ListedPart, ...]:
    """The lines as they are understood. `by_key` maps the search key of a number to its part.

    A line without a quantity is one piece. Headings and sums are left out.
    """
    return tuple(_listed(line, by_key) for line in lines)


def _listed(line: TextLine, by_key: Mapping[str, str]) -> ListedPart:
    number = next((text for text in line.candidates if search_key(text) in by_key), None)
    if number is None:
        reading: Reading = "left_out" if _is_heading(line) else "unknown"
        return ListedPart(line.row, line.text, reading, _likeliest(line), None, Decimal(1))
    quantity = _quantity_beside(line.cells, number)
    reading = "understood" if quantity is None or quantity > 0 else "no_quantity"
    part = by_key[search_key(number)]
    return ListedPart(line.row, line.text, reading, number, part, Decimal(1) if quantity is None else quantity)


def _is_heading(line: TextLine) -> bool:
    words = {search_key(word) for cell in line.cells for word in [cell, *cell.split()]}
    if words & SUMS:
        return True
    return bool(words & HEADINGS) and not any(_quantity(cell) for cell in line.cells)


def _likeliest(line: TextLine) -> str:
    """The title of a line with an unknown number: its first cell that is no quantity."""
    return next((cell for cell in line.cells if _quantity(cell) is None), line.text)


def _quantity_beside(cells: tuple[str, ...], number: str) -> Decimal | None:
    """The quantity of a line with this number: the last one after it, else the last one before it."""
    width = next(
        width
        for width in range(len(cells), 0, -1)
        if any(" ".join(cells[start : start + width]) == number for start in range(len(cells) - width + 1))
    )
    start = next(start for start in range(len(cells)) if " ".join(cells[start : start + width]) == number)
    for side in (cells[start + width :], cells[:start]):
        quantities = [amount for amount in map(_quantity, _joined(side)) if amount is not None]
        if quantities:
            return quantities[-1]
    return None


def _joined(cells: Collection[str]) -> Iterable[str]:
    """The cells, and each with its next one: '2 pcs' may be two words."""
    ordered = list(cells)
    yield from ordered
    yield from (f"{first} {second}" for first, second in pairwise(ordered) if not second[0].isdigit())


def _quantity(cell: str) -> Decimal | None:
    match = QUANTITY.fullmatch(cell.strip())
    return Decimal(match[1].replace(",", ".")) if match else None
