"""What was said of the lines of a pull list beside the counts: notes, seals, scales, what came after closing."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from kitting.calc.counting import KNOWN_VERSION, Event
from kitting.calc.line_state import Flags


@dataclass(frozen=True, slots=True)
class Said:
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


def flags(said: Iterable[Said]) -> dict[str, Flags]:
    """{line: its flags}. A note taken back by who made it says nothing; the last word on a seal stands.

    So a bag that was accepted sealed and then opened and counted is no longer sealed.
    """
    found: dict[str, Flags] = {}
    for each in _standing(said):
        found[each.event.line] = _with(found.get(each.event.line, Flags()), each)
    return found


def wrong_since_counted(said: Iterable[Said]) -> dict[str, int]:
    """{line: pieces found to be something else since the line was last counted}: its count still holds them."""
    found: dict[str, int] = {}
    for each in _standing(said):
        if each.event.late:
            continue
        if each.event.kind == "set":
            found.pop(each.event.line, None)
        elif each.what == "wrong_part":
            found[each.event.line] = found.get(each.event.line, 0) + 1
    return found


def weighed(said: Iterable[Said]) -> frozenset[str]:
    """The lines whose last count that stands was made on a scale."""
    last = {each.event.line: each for each in _standing(said) if each.event.kind == "set" and not each.event.late}
    return frozenset(line for line, each in last.items() if each.extra.get("how") == "weighed")


def _standing(said: Iterable[Said]) -> Iterator[Said]:
    """What was said and not taken back by who said it, in the order of the log."""
    ordered = sorted((each for each in said if each.event.v == KNOWN_VERSION), key=lambda each: each.event.place)
    undone = {(each.event.target, each.event.author) for each in ordered if _undoes(each.event)}
    for each in ordered:
        if each.event.kind in ("set", "add", "note") and (each.event.id, each.event.author) not in undone:
            yield each


def _undoes(event: Event) -> bool:
    return event.kind == "undo" and not event.late


def _with(flags: Flags, said: Said) -> Flags:
    if said.event.late:
        return replace(flags, late=flags.late + 1)
    if said.event.kind != "note":
        return replace(flags, sealed=said.sealed)
    if said.what == "wrong_part":
        return replace(flags, wrong_part=flags.wrong_part + 1)
    return replace(flags, sealed=flags.sealed or said.sealed)
