"""Readers of a cell as text, code, yes or no, or list. Numbers and dates have their own modules.

A reader takes a Cell and the sheet's decimal sign, and returns a Value or raises CellError.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from shop.tables.characters import clean_number, latin_twin
from shop.tables.findings import DONE_FOR_YOU, PLEASE_CHECK, Facts, facts_of
from shop.tables.sheets import Cell

Note = tuple[str, str, Facts]


@dataclass(frozen=True, slots=True)
class Value:
    """A cell's value; `notes` are (weight, code, facts) for the person."""

    value: object
    notes: tuple[Note, ...] = ()


class CellError(ValueError):
    """The cell's content is not valid for its column."""

    def __init__(self, code: str, **facts: object) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts_of(**facts)


Reader = Callable[[Cell, str], Value]


SPACES = re.compile("[\\s\u00a0\u2000-\u200b\u202f\u205f\u3000\ufeff]")


ERROR = re.compile(r"#(?:REF!|N/A|VALUE!|NAME\?|DIV/0!|NUM!|NULL!|SPILL!|CALC!)")


def cell_value(cell: Cell, value: object, *notes: Note) -> Value:
    """The value, with a note if it comes from a formula."""
    if cell.formula:
        plain = getattr(value, "amount", value)
        formula_value = format(plain, "f") if isinstance(plain, Decimal) else str(plain)
        notes = ((PLEASE_CHECK, "formula_value", facts_of(value=formula_value)), *notes)
    return Value(value, notes)


def content_of(cell: Cell) -> object:
    """The cell's content. Raises CellError for a spreadsheet error and for a formula without a value."""
    if cell.formula and cell.value is None:
        raise CellError("formula_without_value")
    if isinstance(cell.value, str) and ERROR.fullmatch(cell.value.strip()):
        raise CellError("cell_error", value=cell.value.strip())
    return cell.value


def plain_text(cell: Cell) -> str:
    """The cell as one line of text: single spaces, composed characters, no control characters."""
    content = cell.value
    if content is None:
        return ""
    if isinstance(content, bool):
        return "yes" if content else "no"
    if not isinstance(content, str):
        return Cell(content).shown
    if content.isascii() and content.isprintable():
        return " ".join(content.split())
    tidy = SPACES.sub(" ", unicodedata.normalize("NFC", content))
    if not tidy.isprintable():
        tidy = "".join(character for character in tidy if unicodedata.category(character)[0] != "C")
    return " ".join(tidy.split())


def text(longest: int = 200) -> Reader:
    """A reader of text up to `longest` characters."""

    def read(cell: Cell, decimal: str) -> Value:
        content_of(cell)
        written = plain_text(cell)
        if len(written) > longest:
            raise CellError("too_long", limit=longest)
        note = (DONE_FOR_YOU, "kept_as_text", ())
        return cell_value(cell, written, *((note,) if written[:1] in ("=", "@") and not cell.formula else ()))

    return read


def article(longest: int = 60) -> Reader:
    """A reader of part numbers and codes: never a quantity, so leading zeros stay."""

    def read(cell: Cell, decimal: str) -> Value:
        content = content_of(cell)
        if isinstance(content, date):
            day, month = content.day, content.month
            raise CellError("date_for_a_number", one=f"{day}/{month}", other=f"{month}/{day}")
        written = plain_text(cell)
        notes: list[Note] = []
        if not written.isascii() or (isinstance(content, str) and not content.isascii()):
            written = plain_text(replace(cell, value=clean_number(content))) if isinstance(content, str) else written
            notes += _letters(str(content), written)
        if len(written) > longest:
            raise CellError("too_long", limit=longest)
        if isinstance(content, str) and re.fullmatch(r"[0-9][.,][0-9]+E\+?[0-9]+", written):
            raise CellError("number_shortened")
        zeros = written.isascii() and written.isdigit() and written[0] == "0" and len(written) > 1
        like_formula = written[:1] in ("=", "+", "-", "@") and not cell.formula and len(written) > 1
        notes += [(DONE_FOR_YOU, "leading_zeros", ())] if zeros else []
        notes += [(DONE_FOR_YOU, "kept_as_text", ())] if like_formula else []
        return cell_value(cell, written, *notes)

    return read


def _letters(before: str, written: str) -> list[Note]:
    """Notes about characters that were cleaned, and about letters that only look Latin."""
    composed = unicodedata.normalize("NFC", before)
    notes: list[Note] = []
    if "".join(composed.split()) != "".join(written.split()):
        notes.append((DONE_FOR_YOU, "characters_cleaned", facts_of(value=written)))
    if twin := latin_twin(written):
        notes.append((PLEASE_CHECK, "look_alike", facts_of(value=written, proposal=twin)))
    return notes


def barcode(cell: Cell, decimal: str) -> Value:
    """Reads a GTIN as 14 digits, or another code unchanged. A wrong check digit is only a note."""
    digits = str(article(80)(cell, decimal).value).replace(" ", "")
    if not (digits.isascii() and digits.isdigit() and len(digits) in (8, 12, 13, 14)):
        return cell_value(cell, digits)
    if not gtin_is_right(digits):
        return cell_value(cell, digits, (PLEASE_CHECK, "check_digit", ()))
    return cell_value(cell, digits.zfill(14))


def gtin_is_right(digits: str) -> bool:
    """True if the check digit is right.

    GS1 General Specifications: weights 3 and 1 from the right, sum divisible by ten.
    """
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(reversed(digits)))
    return total % 10 == 0


YES = frozenset({"yes", "y", "x", "true", "1", "✓", "✔"})


NO = frozenset({"no", "n", "false", "0", "-", "–", ""})


def yes_or_no(cell: Cell, decimal: str) -> Value:
    """Reads yes or no in the usual notations."""
    content_of(cell)
    word = plain_text(cell).casefold()
    if word not in YES | NO:
        raise CellError("not_yes_or_no")
    return cell_value(cell, word in YES)


def words_of(read: Reader) -> Mapping[str, str]:
    """{word: what it stands for} of a reader that knows a closed list of words; empty for any other."""
    if read is yes_or_no:
        return dict.fromkeys(sorted(YES), "yes") | dict.fromkeys(sorted(NO), "no")
    words: Mapping[str, str] = getattr(read, "words", {})
    return words


def listed(separators: str = ";,\n") -> Reader:
    """A reader of several words in one cell, as a tuple without empty ones."""

    def read(cell: Cell, decimal: str) -> Value:
        content_of(cell)
        raw = cell.value if isinstance(cell.value, str) else plain_text(cell)
        parts = (plain_text(Cell(part)) for part in re.split(f"[{re.escape(separators)}]", raw))
        return cell_value(cell, tuple(part for part in parts if part))

    return read


@dataclass(frozen=True, slots=True)
class WordReader:
    """A reader of one of the (folded) words, as the code that it stands for."""

    words: Mapping[str, str]

    def __call__(self, cell: Cell, decimal: str) -> Value:
        content_of(cell)
        meaning = self.words.get(plain_text(cell).casefold().replace("_", " "))
        if meaning is None:
            raise CellError("not_one_of", known=", ".join(sorted({word for word in self.words if word})))
        return cell_value(cell, meaning)


def one_of(words: Mapping[str, str]) -> Reader:
    """A reader of one of the (folded) words, as the code that it stands for."""
    return WordReader(words)


def as_written(cell: Cell, decimal: str) -> Value:
    """The cell and the sheet's decimal sign, for a column whose meaning depends on another column."""
    return Value((cell, decimal))


def email(cell: Cell, decimal: str) -> Value:
    """Reads an e-mail address."""
    content_of(cell)
    address = plain_text(cell)
    if address and not re.fullmatch(r"[^@\s]+@[^@\s]+\.[^@\s.]+", address):
        raise CellError("not_an_email")
    if len(address) > 254:
        raise CellError("too_long", limit=254)
    return cell_value(cell, address)
