"""Observations on a line that are not counts, by anyone and in any order of arrival."""

from typing import Any

from kitting.calc.counting import Event
from kitting.calc.line_state import Flags
from kitting.calc.observed import ObservedEvent, flags, weighed, wrong_since_counted

PIECES = {"pin": 4}


def event(seq: int | None, kind: str = "note", what: str = "", how: str = "", **more: Any) -> ObservedEvent:
    fields = {"target": None, "device": "d", "n": seq or 99, "seen": 0, "author": "ines", "line": "pin"} | more
    total = 4 if kind == "set" else None
    event = Event(id=f"e{seq}", kind=kind, total=total, damaged=None if total is None else 0, seq=seq, **fields)
    return ObservedEvent(event, {"note": {"what": what}} if what else {"how": how} if how else {})


def of_pin(*events: ObservedEvent) -> Flags:
    flags_by_line = flags(events, PIECES)
    assert flags_by_line == flags(reversed(events), PIECES)
    return flags_by_line.get("pin", Flags())


def test_a_seal_holds_until_someone_counts() -> None:
    sealed, counted = event(1, "set", how="sealed"), event(2, "set", how="counted")
    assert of_pin(sealed) == of_pin(event(1, what="sealed")) == Flags(sealed=True)
    assert of_pin(sealed, counted) == Flags(sealed=False)
    assert of_pin(counted, event(3, what="sealed"), event(4, what="damage")) == Flags(sealed=True)


def test_a_line_was_weighed_when_its_last_count_that_stands_was() -> None:
    on_scale, by_hand = event(1, "set", how="weighed"), event(2, "set", how="counted")
    assert weighed([on_scale]) == weighed([on_scale, event(3, "add"), event(4, what="damage")]) == {"pin"}
    assert weighed([on_scale, by_hand]) == frozenset()
    assert weighed([on_scale, by_hand, event(3, "undo", target="e2")]) == {"pin"}
    assert weighed([on_scale, event(2, "undo", target="e1")]) == frozenset()
    assert weighed([event(1, "set", how="weighed", late=True)]) == frozenset()


def test_what_is_still_queued_was_said_last() -> None:
    assert of_pin(event(None, "set", how="counted"), event(7, "set", how="sealed")) == Flags(sealed=False)


def test_every_wrong_part_counts_and_every_observation_after_closing() -> None:
    wrong = [event(seq, what="wrong_part") for seq in (1, 2)]
    assert of_pin(*wrong) == Flags(wrong_part=2)
    late = [event(3, what="wrong_part", late=True), event(4, "set", late=True)]
    assert of_pin(*wrong, *late) == Flags(wrong_part=2, late=2)


def test_only_who_made_a_note_takes_it_back_and_only_in_time() -> None:
    note = event(1, what="wrong_part")
    assert of_pin(note, event(2, "undo", target="e1")) == Flags()
    assert of_pin(note, event(2, "undo", target="e1", author="tomas")) == Flags(wrong_part=1)
    assert of_pin(note, event(2, "undo", target="e1", late=True)) == Flags(wrong_part=1)


def test_a_count_leaves_out_the_wrong_parts_that_it_knew_of() -> None:
    note = event(2, what="wrong_part", device="e")
    assert wrong_since_counted([event(1, "set"), note]) == {"pin": 1}
    assert wrong_since_counted([note, event(3, "set", seen=2)]) == {}
    assert wrong_since_counted([note, event(3, "set", seen=1)]) == {"pin": 1}
    assert wrong_since_counted([note, event(3, "set", seen=2), event(4, "undo", target="e3")]) == {"pin": 1}
    assert wrong_since_counted([note, event(3, "set", seen=2, late=True)]) == {"pin": 1}
    assert wrong_since_counted([event(2, what="wrong_part", late=True)]) == {}
