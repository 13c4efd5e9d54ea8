"""Reads numbers as people write them, never through a float: any decimal sign, thousands separators, trailing units."""

import re
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from shop.tables.findings import DONE_FOR_YOU, PLEASE_CHECK, facts_of
from shop.tables.sheets import Cell
from shop.tables.units import UNITS, unit_of
from shop.tables.values import SPACES, CellError, Note, Reader, Value, cell_value, content_of

CURRENCY = re.compile(r"(?:[A-Z]{3}|[$£€¥₤₩₹])")
NUMBER = re.compile(r"([-+\u2212]?)([0-9][0-9.,'\u2019]*|[.,][0-9]+)")
PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+")
SCIENTIFIC = re.compile(r"([-+\u2212]?)([0-9])(?:[.,]([0-9]+))?[eE]([-+][0-9]{1,2})(?![0-9])")
FRACTION = re.compile(r"[0-9]\s*[/\u2044]\s*[0-9]|[\u00bc-\u00be\u2150-\u215e]")


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount. `unit` is in stored form (pc, m, L, mL, g ...); "" if none is written."""

    amount: Decimal
    unit: str = ""


def parsed_number(written: str, decimal: str) -> tuple[Decimal, tuple[Note, ...]]:
    """The number, with either decimal sign and any thousands separator. Raises CellError if it is ambiguous."""
    digits = re.sub("['\u2019]", "", written)
    points, commas = digits.count("."), digits.count(",")
    if not points and not commas:
        return Decimal(digits), ()
    if points and commas:
        sign = max((".", ","), key=digits.rfind)
        thousands = "," if sign == "." else "."
        whole, _, decimals = digits.rpartition(sign)
        if sign in whole or not _thousands(whole, thousands):
            raise CellError("not_a_number")
        return Decimal(f"{whole.replace(thousands, '')}.{decimals or '0'}"), _comma(sign, decimal)
    sign = "." if points else ","
    if points + commas > 1:
        if not _thousands(digits, sign):
            raise CellError("not_a_number")
        return Decimal(digits.replace(sign, "")), ()
    if not PLAIN.fullmatch(digits):
        raise CellError("not_a_number")
    if _thousands(digits, sign) and sign != decimal and (decimal or sign == ","):
        if not decimal:
            raise CellError("two_meanings", small=digits.replace(sign, "."), large=digits.replace(sign, ""))
        return Decimal(digits.replace(sign, "")), (
            (PLEASE_CHECK, "thousands", facts_of(value=digits.replace(sign, ""))),
        )
    return Decimal(digits.replace(",", ".")), _comma(sign, decimal)


def _comma(sign: str, decimal: str) -> tuple[Note, ...]:
    """The note about a decimal comma; in a sheet that does not use commas throughout, the person should check it."""
    weight = DONE_FOR_YOU if decimal == "," else PLEASE_CHECK
    return ((weight, "decimal_comma", ()),) if sign == "," else ()


def _thousands(digits: str, sign: str) -> bool:
    return re.fullmatch(rf"[1-9][0-9]{{0,2}}(?:{re.escape(sign)}[0-9]{{3}})+", digits) is not None or digits.isdigit()


def _scientific(match: re.Match[str]) -> tuple[Decimal, tuple[Note, ...]]:
    """The amount of a number with a power of ten, and the note that the spreadsheet may have dropped digits."""
    sign, whole, decimals, power = match.groups()
    plain = format(Decimal(f"{whole}.{decimals or 0}e{power}").normalize(), "f")
    amount = Decimal(plain)
    return -amount if sign in ("-", "\u2212") else amount, ((PLEASE_CHECK, "scientific", facts_of(value=plain)),)


def measured(cell: Cell, decimal: str) -> tuple[Decimal, str, bool, tuple[Note, ...]]:
    """(amount, unit as written, True for a percentage, notes)"""
    content = content_of(cell)
    if isinstance(content, Decimal):
        return content, "", False, ()
    if isinstance(content, time | datetime | date):
        raise CellError("a_date_or_time")
    if not isinstance(content, str):
        raise CellError("not_a_number")
    if FRACTION.search(content):
        raise CellError("fraction")
    squeezed = CURRENCY.sub("", SPACES.sub("", content))
    percent = squeezed.endswith("%")
    squeezed = squeezed.removesuffix("%")
    if match := SCIENTIFIC.match(squeezed):
        amount, notes = _scientific(match)
        return amount, squeezed[match.end() :].rstrip("."), percent, notes
    match = NUMBER.match(squeezed)
    if not match:
        times = re.fullmatch(r"[xX×](.+)", squeezed)
        match = NUMBER.fullmatch(times[1]) if times else None
        if not match:
            raise CellError("not_a_number")
        unit = "x"
    else:
        unit = squeezed[match.end() :].rstrip(".")
        unit = "x" if unit == "×" else unit
    amount, notes = parsed_number(match[2], decimal)
    return (-amount if match[1] in ("-", "\u2212") else amount), unit, percent, notes


def quantity(*, scale: int = 4, zero: bool = False, units: frozenset[str] = frozenset(UNITS.values())) -> Reader:
    """A reader of quantities above zero (or at zero, if `zero`) with at most `scale` decimal places."""

    def read(cell: Cell, decimal: str) -> Value:
        amount, written, percent, notes = measured(cell, decimal)
        unit = unit_of(written) if written else ""
        if percent or (written and unit not in units):
            raise CellError("unknown_unit" if written else "not_a_number", unit=written)
        _bounded(amount, scale, zero)
        if unit == "pc":
            notes = ((DONE_FOR_YOU, "read_as_pieces", facts_of(n=format(amount, "f"))), *notes)
        return cell_value(cell, Quantity(amount, unit), *notes)

    return read


def number(*, scale: int = 4, zero: bool = True, units: tuple[str, ...] = (), most: int | None = None) -> Reader:
    """A reader of Decimals up to `most`. The `units` may follow the number and are ignored."""

    def read(cell: Cell, decimal: str) -> Value:
        amount, written, percent, notes = measured(cell, decimal)
        if percent or (written and unit_of(written) not in units):
            raise CellError("unknown_unit" if written else "not_a_number", unit=written)
        _bounded(amount, scale, zero)
        if most is not None and amount > most:
            raise CellError("above", limit=most)
        return cell_value(cell, amount, *notes)

    return read


def whole(*, units: tuple[str, ...] = (), most: int | None = None) -> Reader:
    """A reader of whole numbers."""

    def read(cell: Cell, decimal: str) -> Value:
        value = number(scale=0, units=units, most=most)(cell, decimal)
        assert isinstance(value.value, Decimal)
        return Value(int(value.value), value.notes)

    return read


def share(scale: int = 6) -> Reader:
    """A reader of rates as shares: "20 %" and 0.2 are 0.2. A bare 20 is read as 20 % with a note."""

    def read(cell: Cell, decimal: str) -> Value:
        amount, written, percent, notes = measured(cell, decimal)
        if written:
            raise CellError("unknown_unit", unit=written)
        if not percent and amount > 1:
            notes = ((PLEASE_CHECK, "read_as_percent", facts_of(value=format(amount, "f"))), *notes)
            percent = True
        rate = amount / 100 if percent else amount
        if rate > 1:
            raise CellError("out_of_range")
        _bounded(rate, scale, True)
        return cell_value(cell, rate, *notes)

    return read


def _bounded(amount: Decimal, scale: int, zero: bool) -> None:
    if amount < 0 or (amount == 0 and not zero):
        raise CellError("below_zero" if amount < 0 else "not_above_zero")
    if amount >= 10**12:
        raise CellError("out_of_range")
    if amount != amount.quantize(Decimal(1).scaleb(-scale)):
        raise CellError("too_many_decimals", limit=scale)


def litres(cell: Cell, decimal: str) -> Value:
    """Reads a volume in litres; millilitres are converted."""
    measure = quantity(units=frozenset({"L", "mL"}))(cell, decimal)
    assert isinstance(measure.value, Quantity)
    amount, unit = measure.value.amount, measure.value.unit
    if unit != "mL":
        return Value(amount, measure.notes)
    return Value(
        amount / 1000, ((PLEASE_CHECK, "turned_into_litres", facts_of(value=str(amount / 1000))), *measure.notes)
    )
