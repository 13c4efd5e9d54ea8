"""Observations on pull list lines that are not counts: notes, seals, scales, and events that came after closing."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from kitting.calc.counting import KNOWN_VERSION, Event, knows
from kitting.calc.line_state import Flags


@dataclass(frozen=True, slots=True)
class ObservedEvent:
    """An event with what is never folded: `how` it was counted, the `note` that was made."""

    event: Event
    extra: Mapping[str, Any]

    @property
    def note_code(self) -> str:
        note = self.extra.get("note")
        return str(note.get("what", "")) if isinstance(note, dict) else ""

    @property
    def sealed(self) -> bool:
        return self.extra.get("how") == "sealed" or (self.event.kind == "note" and self.note_code == "sealed")


def flags(observed: Iterable[ObservedEvent], expected: Mapping[str, int]) -> dict[str, Flags]:
    """{line: its flags}; `expected` are the pieces of each line. An undone note says nothing.

    A wrong-part note is lifted by a live count of at least what is expected, with none damaged, by somebody who had
    the note on the screen: the right part has come. Once that count is undone the note is back.

    The last word on a seal stands, so a bag that was accepted sealed and then opened and counted is no longer sealed.
    """
    live = tuple(_live(observed))
    full = [entry.event for entry in live if _is_full(entry.event, expected)]
    flags_by_line: dict[str, Flags] = {}
    for entry in live:
        if not _is_lifted(entry, full):
            flags_by_line[entry.event.line] = _with(flags_by_line.get(entry.event.line, Flags()), entry)
    return flags_by_line


def _is_full(event: Event, expected: Mapping[str, int]) -> bool:
    """Whether it is a count of all that is expected of its line, with none damaged."""
    total, damaged = event.numbers
    counts = event.kind == "set" and not event.late and event.line in expected
    return counts and damaged == 0 and total >= expected[event.line]


def _is_lifted(entry: ObservedEvent, full: Iterable[Event]) -> bool:
    """Whether it is a wrong-part note, in time, that one of the full counts of its line knows."""
    event = entry.event
    if event.late or event.kind != "note" or entry.note_code != "wrong_part":
        return False
    return any(count.line == event.line and knows(count, event) for count in full)


def wrong_since_counted(observed: Iterable[ObservedEvent]) -> dict[str, int]:
    """{line: pieces noted as a wrong part that its counts still hold}.

    A count by somebody who had the note on the screen leaves the wrong part out.
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
    """The lines whose last count that stands was made on a scale."""
    last = {entry.event.line: entry for entry in _live(observed) if entry.event.kind == "set" and not entry.event.late}
    return frozenset(line for line, entry in last.items() if entry.extra.get("how") == "weighed")


def _live(observed: Iterable[ObservedEvent]) -> Iterator[ObservedEvent]:
    """The events that their author has not undone, in the order of the log, with those that came after closing."""
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
