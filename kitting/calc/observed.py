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
    def what(self) -> str:
        note = self.extra.get("note")
        return str(note.get("what", "")) if isinstance(note, dict) else ""

    @property
    def sealed(self) -> bool:
        return self.extra.get("how") == "sealed" or (self.event.kind == "note" and self.what == "sealed")


def flags(said: Iterable[ObservedEvent], expected: Mapping[str, int]) -> dict[str, Flags]:
    """{line: its flags}; `expected` are the pieces of each line. An undone note says nothing.

    A wrong-part note is lifted by a live count of at least what is expected, with none damaged, by somebody who had
    the note on the screen: the right part has come. Once that count is undone the note is back.

    The last word on a seal stands, so a bag that was accepted sealed and then opened and counted is no longer sealed.
    """
    live = tuple(_live(said))
    full = [each.event for each in live if _is_full(each.event, expected)]
    found: dict[str, Flags] = {}
    for each in live:
        if not _is_lifted(each, full):
            found[each.event.line] = _with(found.get(each.event.line, Flags()), each)
    return found


def _is_full(event: Event, expected: Mapping[str, int]) -> bool:
    """Whether it is a count of all that is expected of its line, with none damaged."""
    total, damaged = event.numbers
    counts = event.kind == "set" and not event.late and event.line in expected
    return counts and damaged == 0 and total >= expected[event.line]


def _is_lifted(said: ObservedEvent, full: Iterable[Event]) -> bool:
    """Whether it is a wrong-part note, in time, that one of the full counts of its line knows."""
    event = said.event
    if event.late or event.kind != "note" or said.what != "wrong_part":
        return False
    return any(count.line == event.line and knows(count, event) for count in full)


def wrong_since_counted(said: Iterable[ObservedEvent]) -> dict[str, int]:
    """{line: pieces noted as a wrong part that its counts still hold}.

    A count by somebody who had the note on the screen leaves the wrong part out.
    """
    live = [each for each in _live(said) if not each.event.late]
    counts = [each.event for each in live if each.event.kind == "set"]
    found: dict[str, int] = {}
    for each in live:
        line = each.event.line
        noted = each.event.kind == "note" and each.what == "wrong_part"
        if noted and not any(count.line == line and knows(count, each.event) for count in counts):
            found[line] = found.get(line, 0) + 1
    return found


def weighed(said: Iterable[ObservedEvent]) -> frozenset[str]:
    """The lines whose last count that stands was made on a scale."""
    last = {each.event.line: each for each in _live(said) if each.event.kind == "set" and not each.event.late}
    return frozenset(line for line, each in last.items() if each.extra.get("how") == "weighed")


def _live(said: Iterable[ObservedEvent]) -> Iterator[ObservedEvent]:
    """The events that their author has not undone, in the order of the log, with those that came after closing."""
    ordered = sorted((each for each in said if each.event.v == KNOWN_VERSION), key=lambda each: each.event.place)
    undone = {(each.event.target, each.event.author) for each in ordered if _undoes(each.event)}
    for each in ordered:
        if each.event.kind in ("set", "add", "note") and (each.event.id, each.event.author) not in undone:
            yield each


def _undoes(event: Event) -> bool:
    return event.kind == "undo" and not event.late


def _with(flags: Flags, said: ObservedEvent) -> Flags:
    if said.event.late:
        return replace(flags, late=flags.late + 1)
    if said.event.kind != "note":
        return replace(flags, sealed=said.sealed)
    if said.what == "wrong_part":
        return replace(flags, wrong_part=flags.wrong_part + 1)
    return replace(flags, sealed=flags.sealed or said.sealed)
