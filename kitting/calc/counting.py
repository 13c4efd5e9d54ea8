"""Folds the counts of several people, some of them offline, into one tally a line (the calculation named counting).

Worked cases: fixtures/vectors/counting.json. Units: whole pieces; places in the log are whole numbers from 1.

The same fold stands in the front end and runs the same worked cases. No clock is read and no order of
arrival matters: only which event knew of which. "e knows f" when the same device made f before e, or when f
has a place in the list's log that e's phone had pulled.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256
from itertools import accumulate, combinations
from json import dumps

KNOWN_VERSION = 1
_COUNTING = ("set", "add")
_NEVER = 1 << 62
"""The place in the log of an event that has none yet: no phone has pulled that far."""


@dataclass(frozen=True, slots=True)
class Event:
    """One observation as it stands in the log or in a phone's queue.

    `total` and `damaged` are whole pieces, None where the kind has none; `n` counts the device's events,
    `seen` is the log place pulled by then (clamped by the server), `seq` its own place, None while queued.
    """

    id: str
    line: str
    kind: str
    total: int | None
    damaged: int | None
    target: str | None
    device: str
    n: int
    seen: int
    author: str
    seq: int | None
    late: bool = False
    v: int = KNOWN_VERSION

    @property
    def numbers(self) -> tuple[int, int]:
        return self.total or 0, self.damaged or 0

    @property
    def place(self) -> int:
        return _NEVER if self.seq is None else self.seq


@dataclass(frozen=True, slots=True)
class Tally:
    """`total` and `damaged` pieces of the largest candidate, `low` the least total, `confirm`: count again."""

    total: int
    damaged: int
    low: int
    confirm: bool


def knows(event: Event, other: Event) -> bool:
    """Whether whoever made `event` had `other` on that screen."""
    return (event.device == other.device and other.n < event.n) or other.place <= event.seen


def fold(events: Iterable[Event]) -> dict[str, Tally]:
    """A tally for every line with a live count; order and repetition of the events do not matter.

    Refuses nothing: kinds and versions not known here are left out. A line whose events are all undone or late
    is absent.
    """
    lines: dict[str, list[Event]] = defaultdict(list)
    for event in _live(_distinct(events)):
        lines[event.line].append(event)
    return {line: _tally(counted) for line, counted in lines.items()}


def standing(events: Iterable[Event]) -> dict[str, list[Event]]:
    """The counts that each line's tally rests on: those that no full count by somebody who saw them has replaced.

    In the order of the log; what waits on a phone comes last.
    """
    lines: dict[str, list[Event]] = defaultdict(list)
    for event in sorted(_live(_distinct(events)), key=lambda event: event.place):
        lines[event.line].append(event)
    return {line: _unreplaced(counted) for line, counted in lines.items()}


def _unreplaced(events: list[Event]) -> list[Event]:
    knowledge = _Knowledge([event for event in events if event.kind == "set"])
    return [event for event in events if not knowledge.of(event)]


def digest(tallies: Mapping[str, Tally]) -> str:
    """SHA-256 in lower-case hex over the canonical JSON of {line: [total, damaged, low, confirm]}."""
    rows = {line: [tally.total, tally.damaged, tally.low, tally.confirm] for line, tally in tallies.items()}
    text = dumps(rows, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return sha256(text.encode()).hexdigest()


def _distinct(events: Iterable[Event]) -> dict[str, Event]:
    """One event an id: the copy with a place in the log stands, and it is late if any copy is."""
    events_by_id: dict[str, Event] = {}
    for event in events:
        first = events_by_id.get(event.id)
        if first is None:
            events_by_id[event.id] = event
            continue
        stands = event if event.place < first.place else first
        late = event.late or first.late
        events_by_id[event.id] = stands if stands.late == late else replace(stands, late=late)
    return events_by_id


def _live(events: Mapping[str, Event]) -> list[Event]:
    timely = [event for event in events.values() if not event.late and event.v == KNOWN_VERSION]
    undone = {(event.target, event.author) for event in timely if event.kind == "undo"}
    return [event for event in timely if event.kind in _COUNTING and (event.id, event.author) not in undone]


class _Knowledge:
    """The combined knowledge of a group of events: the highest n of each device, and the two latest pulls."""

    def __init__(self, events: list[Event]) -> None:
        self._furthest: dict[str, int] = {}
        for event in events:
            self._furthest[event.device] = max(event.n, self._furthest.get(event.device, event.n))
        pulls = sorted((event.seen, event.id) for event in events)[-2:]
        self._pulls = pulls[::-1]

    def of(self, event: Event) -> bool:
        """Whether another event of the group knows this one."""
        if self._furthest.get(event.device, event.n) > event.n:
            return True
        return any(seen >= event.place for seen, by in self._pulls if by != event.id)


def _tally(events: list[Event]) -> Tally:
    sets = [event for event in events if event.kind == "set"]
    knowledge = _Knowledge(sets)
    tops = [event for event in sets if not knowledge.of(event)]
    adds = [event for event in events if event.kind == "add" and not knowledge.of(event)]
    candidates = _candidates(tops, adds)
    certain = (
        len({top.numbers for top in tops}) <= 1
        and all(knows(add, top) for top in tops for add in adds)
        and not _strangers(adds)
        and all(0 <= damaged <= total for total, damaged in candidates)
    )
    total, damaged = max(candidates)
    return Tally(total, damaged, min(candidates)[0], not certain)


def _candidates(tops: list[Event], adds: list[Event]) -> list[tuple[int, int]]:
    """For each top its numbers with the adds that know it, and with all adds; without one, all adds on 0."""
    everything = _sum(adds)
    if not tops:
        return [everything]
    candidates = []
    for top in tops:
        candidates.append(_plus(top.numbers, _sum([add for add in adds if knows(add, top)])))
        candidates.append(_plus(top.numbers, everything))
    return candidates


def _sum(adds: list[Event]) -> tuple[int, int]:
    return sum(add.numbers[0] for add in adds), sum(add.numbers[1] for add in adds)


def _plus(first: tuple[int, int], second: tuple[int, int]) -> tuple[int, int]:
    return first[0] + second[0], first[1] + second[1]


def _strangers(adds: list[Event]) -> bool:
    """Whether two adds do not know one another either way."""
    return _strangers_on_one_device(adds) or _strangers_apart(adds)


def _strangers_on_one_device(adds: list[Event]) -> bool:
    """Only events with the same n, which a sound device never makes."""
    same: dict[tuple[str, int], list[Event]] = defaultdict(list)
    for add in adds:
        same[add.device, add.n].append(add)
    pairs = (pair for group in same.values() for pair in combinations(group, 2))
    return any(not knows(first, second) and not knows(second, first) for first, second in pairs)


def _strangers_apart(adds: list[Event]) -> bool:
    """Whether an add, and the latest in the log of those that had not pulled it, are of two devices and strangers.

    That one is enough: if it is of the same device as the add, then it and the add's stranger are strangers
    as well, and nearer the end of the log.
    """
    ordered = sorted(adds, key=lambda add: add.seen)
    pulls = [add.seen for add in ordered]
    latest = list(accumulate(ordered, _later))
    for add in ordered:
        others = bisect_left(pulls, add.place)
        if others and latest[others - 1].device != add.device and latest[others - 1].place > add.seen:
            return True
    return False


def _later(first: Event, second: Event) -> Event:
    return second if second.place > first.place else first
