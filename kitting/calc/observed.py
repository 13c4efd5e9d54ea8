"""Observations on pull list lines that are not counts: notes, seals, weighings, and events after closing."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from kitting.calc.counting import KNOWN_VERSION, Event, knows
from kitting.calc.line_state import Flags


@dataclass(frozen=True, slots=True)
class ObservedEvent:
    """An event with its fields that are never folded: `how` it was counted, and its `note`."""

    event: Event
    extra: Mapping[str, Any]

    @property
    def note_code(self) -> str:
        """The code of the note; empty without one."""
        note = self.extra.get("note")
        return str(note.get("what", "")) if isinstance(note, dict) else ""

    @property
    def sealed(self) -> bool:
        return self.extra.get("how") == "sealed" or (self.event.kind == "note" and self.note_code == "sealed")


def flags(observed: Iterable[ObservedEvent], expected: Mapping[str, int]) -> dict[str, Flags]:
    """{line: its flags}. `expected` are the pieces of each line. An undone note has no effect.

    A wrong-part note is lifted by a live count of at least the expected pieces, none damaged, by somebody who had the
    note on the screen: the right part has come. If that count is undone, the note applies again.

    The last observation on a seal wins: a bag that was accepted sealed and then opened and counted is not sealed.
    """
    flags_by_line: dict[str, Flags] = {}
    for entry in _not_lifted(observed, expected):
        flags_by_line[entry.event.line] = _with(flags_by_line.get(entry.event.line, Flags()), entry)
    return flags_by_line


def wrong_part_notes(observed: Iterable[ObservedEvent], expected: Mapping[str, int]) -> Iterator[Event]:
    """The wrong-part notes that `flags` counts, in log order."""
    for entry in _not_lifted(observed, expected):
        if entry.event.kind == "note" and entry.note_code == "wrong_part" and not entry.event.late:
            yield entry.event


def _not_lifted(observed: Iterable[ObservedEvent], expected: Mapping[str, int]) -> Iterator[ObservedEvent]:
    """The live events without the wrong-part notes that a full count has lifted."""
    live = tuple(_live(observed))
    full = [entry.event for entry in live if _is_full(entry.event, expected)]
    for entry in live:
        if not _is_lifted(entry, full):
            yield entry


def _is_full(event: Event, expected: Mapping[str, int]) -> bool:
    """True for a count of at least the expected pieces of its line, none damaged."""
    total, damaged = event.numbers
    counts = event.kind == "set" and not event.late and event.line in expected
    return counts and damaged == 0 and total >= expected[event.line]


def _is_lifted(entry: ObservedEvent, full: Iterable[Event]) -> bool:
    """True for a wrong-part note, in time, that one of the full counts of its line knows."""
    event = entry.event
    if event.late or event.kind != "note" or entry.note_code != "wrong_part":
        return False
    return any(count.line == event.line and knows(count, event) for count in full)


def wrong_since_counted(observed: Iterable[ObservedEvent]) -> dict[str, int]:
    """{line: pieces noted as a wrong part that its counts still include}.

    A count by somebody who had the note on the screen does not include the wrong part.
    """
    live = [entry for entry in _live(observed) if not entry.event.late]
    counts = [entry.event for entry in live if entry.event.kind == "set"]
    pieces_by_line: dict[str, int] = {}
    for entry in live:
        line = entry.event.line
        noted = entry.event.kind == "note" and entry.note_code == "wrong_part"
        if noted and not any(count.line == line and knows(count, entry.event) for count in counts):
            pieces_by_line[line] = pieces_by_line.get(line, 0) + 1
    return pieces_by_line


def weighed(observed: Iterable[ObservedEvent]) -> frozenset[str]:
    """The lines whose last live count was made on a scale."""
    last = {entry.event.line: entry for entry in _live(observed) if entry.event.kind == "set" and not entry.event.late}
    return frozenset(line for line, entry in last.items() if entry.extra.get("how") == "weighed")


def _live(observed: Iterable[ObservedEvent]) -> Iterator[ObservedEvent]:
    """The events that their author has not undone, in log order, including those after closing."""
    ordered = sorted(
        (entry for entry in observed if entry.event.v == KNOWN_VERSION), key=lambda entry: entry.event.place
    )
    undone = {(entry.event.target, entry.event.author) for entry in ordered if _undoes(entry.event)}
    for entry in ordered:
        if entry.event.kind in ("set", "add", "note") and (entry.event.id, entry.event.author) not in undone:
            yield entry


def _undoes(event: Event) -> bool:
    return event.kind == "undo" and not event.late


def _with(flags: Flags, entry: ObservedEvent) -> Flags:
    if entry.event.late:
        return replace(flags, late=flags.late + 1)
    if entry.event.kind != "note":
        return replace(flags, sealed=entry.sealed)
    if entry.note_code == "wrong_part":
        return replace(flags, wrong_part=flags.wrong_part + 1)
    return replace(flags, sealed=flags.sealed or entry.sealed)
