"""The log of a job's outside work: sent, asked again, come back, and what follows from it.

A turnaround is counted in open days, from the day on which the work was sent. A day that the firm has named since
replaces it. Work that is sent again after it came back is a further round.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Literal
from uuid import UUID

from shop.calc.days import on_the_shelf
from shop.calc.outside import given_back
from shop.calc.worktime import WorkCalendar

EventKind = Literal["sent", "asked", "back", "undone"]
Whereabouts = Literal["proposed", "sent", "back"]


@dataclass(frozen=True, slots=True)
class OutsideLogEntry:
    """An entry of the log. `expected_on` is the day that the firm named, with `sent` or `asked`."""

    kind: EventKind
    day: date
    expected_on: date | None = None
    id: UUID | None = None


@dataclass(frozen=True, slots=True)
class OutsideProgress:
    """The state of a piece of outside work. `sent_on` and `expected_on` belong to the last round."""

    state: Whereabouts = "proposed"
    rounds: int = 0
    sent_on: date | None = None
    asked_on: date | None = None
    expected_on: date | None = None
    back_on: date | None = None


def standing_entries(log: Iterable[OutsideLogEntry]) -> tuple[OutsideLogEntry, ...]:
    """The entries that hold, the first one first: each `undone` takes back the last that held."""
    standing: list[OutsideLogEntry] = []
    for entry in log:
        if entry.kind != "undone":
            standing.append(entry)
        elif standing:
            standing.pop()
    return tuple(standing)


def outside_progress(log: Iterable[OutsideLogEntry]) -> OutsideProgress:
    """The progress of one piece of work. `log` in the order in which it was recorded."""
    progress = OutsideProgress()
    for entry in standing_entries(log):
        if entry.kind == "sent":
            progress = OutsideProgress("sent", progress.rounds + 1, entry.day, expected_on=entry.expected_on)
        elif entry.kind == "asked":
            progress = OutsideProgress(
                progress.state,
                progress.rounds,
                progress.sent_on,
                entry.day,
                entry.expected_on or progress.expected_on,
                progress.back_on,
            )
        else:
            progress = OutsideProgress("back", max(progress.rounds, 1), progress.sent_on, back_on=entry.day)
    return progress


def may_follow(kind: EventKind, progress: OutsideProgress) -> bool:
    """Whether an entry of this kind can be recorded now. What comes back need not have been recorded as sent."""
    allowed: dict[EventKind, tuple[Whereabouts, ...]] = {
        "sent": ("proposed", "back"),
        "asked": ("sent",),
        "back": ("proposed", "sent"),
        "undone": ("sent", "back"),
    }
    return progress.state in allowed[kind]


def due_back(progress: OutsideProgress, days: int | None, calendar: WorkCalendar | None) -> datetime | None:
    """The moment by which sent work is due back: closing time of its day; None if it is not out or has no day.

    `days` is the turnaround in open days. Refuses `never_open`, `too_far`.
    """
    if progress.state != "sent" or progress.sent_on is None or calendar is None:
        return None
    if progress.expected_on is not None:
        return on_the_shelf(progress.expected_on, calendar)
    if days is None:
        return None
    return given_back(datetime.combine(progress.sent_on, time.min, calendar.zone), days, calendar)
