"""The opening hours of a workbook of price rules."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from shop.queries.calendar import WEEK
from shop.services.opening_hours import Hours
from shop.tables.engine import ParsedRow
from shop.tables.findings import Finding, must_fix


@dataclass(frozen=True, slots=True)
class ImportedWeek:
    """Opening hours as the file states them, from a day on; without one, from the day of the import."""

    valid_from: date | None
    week: Hours
    where: Finding


def weeks_of(rows: tuple[ParsedRow, ...], findings: list[Finding]) -> Iterator[ImportedWeek]:
    """The hours of each day from which some apply."""
    by_day: dict[date | None, list[ParsedRow]] = {}
    for row in rows:
        by_day.setdefault(row.get("valid_from"), []).append(row)
    for valid_from, days in by_day.items():
        yield ImportedWeek(valid_from, _week(days, findings), days[0].at("valid_from"))


def _week(rows: Iterable[ParsedRow], findings: list[Finding]) -> Hours:
    week: Hours = {}
    for row in rows:
        day, opens, closes = row.get("day"), row.get("opens"), row.get("closes")
        if not (day and opens and closes):
            continue
        if opens >= closes:
            findings.append(must_fix("closes_before_opening", row.at("closes"), opens=opens))
        week.setdefault(day, []).append([opens, closes])
    return {day: sorted(week[day]) for day in WEEK if day in week}
