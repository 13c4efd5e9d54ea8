"""The log of outside work: the state after each entry, the entries that may follow, and the day of return."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from kitting.calc.outside_log import (
    EventKind,
    OutsideLogEntry,
    OutsideProgress,
    due_back,
    may_follow,
    outside_progress,
    standing_entries,
)
from shop.calc.worktime import WorkCalendar

ZONE = ZoneInfo("Europe/Vienna")
DAY = ((8 * 60, 12 * 60), (13 * 60, 17 * 60))
OPEN = WorkCalendar(ZONE, (DAY, DAY, DAY, DAY, DAY, (), ()), closed=frozenset({date(2026, 12, 8)}))  # a Tuesday


def log(words: str) -> tuple[OutsideLogEntry, ...]:
    """'sent 3, asked 7 9' is sent on the 3rd and asked for on the 7th, when the firm named the 9th."""
    entries = []
    for part in words.split(", ") if words else ():
        kind, day, *named = part.split()
        kinds: dict[str, EventKind] = {"sent": "sent", "asked": "asked", "back": "back", "undone": "undone"}
        expected = date(2026, 12, int(named[0])) if named else None
        entries.append(OutsideLogEntry(kinds[kind], date(2026, 12, int(day)), expected))
    return tuple(entries)


@pytest.mark.parametrize(
    ("words", "state", "rounds"),
    [
        ("", "proposed", 0),
        ("sent 3", "sent", 1),
        ("sent 3, asked 7", "sent", 1),
        ("sent 3, back 8", "back", 1),
        ("back 8", "back", 1),  # nobody had recorded that it was sent
        ("sent 3, back 8, sent 9", "sent", 2),
        ("sent 3, back 8, sent 9, back 11", "back", 2),
        ("sent 3, undone 3", "proposed", 0),
        ("sent 3, back 4, undone 4", "sent", 1),
        ("sent 3, back 4, undone 4, undone 4", "proposed", 0),
        ("undone 3, sent 3", "sent", 1),
    ],
)
def test_the_log_says_where_the_work_is_and_in_which_round(words: str, state: str, rounds: int) -> None:
    progress = outside_progress(log(words))
    assert (progress.state, progress.rounds) == (state, rounds)


def test_an_undone_entry_takes_back_the_last_that_held() -> None:
    assert standing_entries(log("sent 3, asked 5, undone 5, back 8")) == log("sent 3, back 8")


@pytest.mark.parametrize(
    ("words", "kinds"),
    [
        ("", {"sent", "back"}),
        ("sent 3", {"asked", "back", "undone"}),
        ("sent 3, back 8", {"sent", "undone"}),
    ],
)
def test_what_may_follow(words: str, kinds: set[str]) -> None:
    every: tuple[EventKind, ...] = ("sent", "asked", "back", "undone")
    assert {kind for kind in every if may_follow(kind, outside_progress(log(words)))} == kinds


@pytest.mark.parametrize(
    ("words", "days", "due"),
    [
        ("sent 3", 3, 9),  # Fri, Mon, and Wed: Tuesday is a holiday
        ("sent 3 7", 3, 7),  # the firm named a day as it took it
        ("sent 3, asked 7 11", 3, 11),
        ("sent 3, asked 7 11, asked 9", 3, 11),  # asked again, and no other day named
        ("sent 3 7, asked 7 11", 3, 11),
        ("sent 3, asked 7 8", 3, 9),  # closed on the day that was named
        ("sent 3", None, None),
        ("sent 3, back 8", 3, None),
        ("sent 3 4, back 8, sent 9", 1, 10),  # the days of each round are counted separately
        ("", 3, None),
    ],
)
def test_it_is_due_as_the_workshop_closes(words: str, days: int | None, due: int | None) -> None:
    expected = datetime(2026, 12, due, 17, tzinfo=ZONE) if due else None
    assert due_back(outside_progress(log(words)), days, OPEN) == expected


def test_without_opening_hours_nothing_is_due() -> None:
    assert due_back(OutsideProgress("sent", 1, date(2026, 12, 3)), 3, None) is None
