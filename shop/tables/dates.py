"""Reads dates and times of day. An ambiguous date is refused, not guessed."""

import re
from datetime import date, datetime, time

from shop.tables.sheets import Cell
from shop.tables.values import CellError, Value, cell_value, content_of, plain_text


def day(cell: Cell, decimal: str) -> Value:
    """Reads a date. Raises CellError for a date whose day and month could be swapped."""
    content = content_of(cell)
    if isinstance(content, datetime):
        return cell_value(cell, content.date())
    if isinstance(content, date):
        return cell_value(cell, content)
    if not isinstance(content, str):
        raise CellError("not_a_date")
    return cell_value(cell, _date(content.strip()))


def _date(written: str) -> date:
    for pattern in ("%Y-%m-%d", "%Y/%m/%d", "%d %B %Y", "%d %b %Y"):
        try:
            return datetime.strptime(written, pattern).date()
        except ValueError:
            continue
    parts = re.fullmatch(r"([0-9]{1,2})([./-])([0-9]{1,2})\2([0-9]{4})", written)
    if not parts:
        raise CellError("not_a_date")
    first, second = int(parts[1]), int(parts[3])
    if parts[2] != "." and first <= 12 and second <= 12 and first != second:
        raise CellError("two_dates")
    days, month = (second, first) if second > 12 else (first, second)
    try:
        return date(int(parts[4]), month, days)
    except ValueError:
        raise CellError("not_a_date") from None


def clock(cell: Cell, decimal: str) -> Value:
    """Reads a time of day as "08:00". "24:00" is the end of a day."""
    content = content_of(cell)
    if isinstance(content, time):
        return cell_value(cell, content.strftime("%H:%M"))
    match = re.fullmatch(r"([0-9]{1,2})[:.]([0-9]{2})(?:[:.]00)?", plain_text(cell))
    if not match or not (int(match[1]) < 24 and int(match[2]) < 60 or (match[1], match[2]) == ("24", "00")):
        raise CellError("not_a_time")
    return cell_value(cell, f"{int(match[1]):02d}:{match[2]}")
