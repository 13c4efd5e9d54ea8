"""Folds the counts of several people, some of them offline, into one tally per line (the calculation named counting).

Worked cases: fixtures/vectors/counting.json. Units: whole pieces; places in the log are whole numbers from 1.

The front end has the same fold and runs the same worked cases. Neither clocks nor the order of arrival matter, only
which event knew of which. Event e knows event f if the same device made f before e, or if f has a place in the list's
log that e's phone had pulled.
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
"""The place of an event that is not in the log yet: no phone has pulled that far."""


@dataclass(frozen=True, slots=True)
class Event:
    """One observation as it stands in the log or in a phone's queue.

    `total` and `damaged` are whole pieces, None if the kind has none. `n` counts the device's events. `seen` is the log
    place pulled by then (clamped by the server). `seq` is the event's own place, None while queued.
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
        """(total, damaged), with 0 for None."""
        return self.total or 0, self.damaged or 0

    @property
    def place(self) -> int:
        """The place in the log; `_NEVER` while queued."""
        return _NEVER if self.seq is None else self.seq


@dataclass(frozen=True, slots=True)
class Tally:
    """Pieces of one line: `total` and `damaged` of the largest candidate, and the lowest total (`low`).

    `confirm`: the line has to be counted again.
    """

    total: int
    damaged: int
    low: int
    confirm: bool


def knows(event: Event, other: Event) -> bool:
    """True if the author of `event` had `other` on the screen."""
    return (event.device == other.device and other.n < event.n) or other.place <= event.seen


def fold(events: Iterable[Event]) -> dict[str, Tally]:
    """A tally for each line with a live count. Order and repetition of the events do not matter.

    Refuses nothing: kinds and versions not known here are ignored. A line is absent if all its events are undone or
    late.
    """
    lines: dict[str, list[Event]] = defaultdict(list)
    for event in _live(_distinct(events)):
        lines[event.line].append(event)
    return {line: _tally(counted) for line, counted in lines.items()}


def standing(events: Iterable[Event]) -> dict[str, list[Event]]:
    """The counts that each line's tally rests on: no full count by someone who had seen them has replaced them.

    They are in the order of the log; events still on a phone come last.
    """
    lines: dict[str, list[Event]] = defaultdict(list)
    for event in sorted(_live(_distinct(events)), key=lambda event: event.place):
        lines[event.line].append(event)
    return {line: _unreplaced(counted) for line, counted in lines.items()}


def _unreplaced(events: list[Event]) -> list[Event]:
    knowledge = _Knowledge([event for event in events if event.kind == "set"])
    return [event for event in events if not knowledge.of(event)]


def digest(tallies: Mapping[str, Tally]) -> str:
    """The SHA-256 in lower-case hex of the canonical JSON of {line: [total, damaged, low, confirm]}."""
    rows = {line: [tally.total, tally.damaged, tally.low, tally.confirm] for line, tally in tallies.items()}
    text = dumps(rows, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return sha256(text.encode()).hexdigest()


def _distinct(events: Iterable[Event]) -> dict[str, Event]:
    """One event per id. A copy with a place in the log wins, and the event is late if any copy is."""
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
        """True if another event of the group knows this one."""
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
    """The numbers of each top count with the adds that know it, and with all adds; without one, all adds on 0."""
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
    """True if there are two adds of which neither knows the other."""
    return _strangers_on_one_device(adds) or _strangers_apart(adds)


def _strangers_on_one_device(adds: list[Event]) -> bool:
    """True for strangers of one device. They have the same n, which a correct device never makes."""
    same: dict[tuple[str, int], list[Event]] = defaultdict(list)
    for add in adds:
        same[add.device, add.n].append(add)
    pairs = (pair for group in same.values() for pair in combinations(group, 2))
    return any(not knows(first, second) and not knows(second, first) for first, second in pairs)


def _strangers_apart(adds: list[Event]) -> bool:
    """True if some add and the latest of the adds that had not pulled it are strangers on two devices.

    Checking the latest is enough: if it is from the add's own device, then it is itself a stranger to any other
    stranger of the add, and stands nearer the end of the log.
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
