"""Properties of the counting fold on random histories, and comparison with the front end's fold."""

import json
import subprocess
from collections.abc import Iterable
from dataclasses import asdict, replace
from hashlib import sha256
from itertools import combinations
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitting.calc.counting import Event, Tally, digest, fold
from tests.calc.histories import LINES, histories, huddle, sound_history, wild_history
from tests.examples import many

SCRIPT = Path(__file__).with_name("fold_histories.mjs")

seeds = st.integers(min_value=0, max_value=2**32)
sound = seeds.map(sound_history)
wild = seeds.map(wild_history)
any_history = st.one_of(sound, wild, seeds.map(huddle))


def saw(event: Event, other: Event) -> bool:
    """A second definition of knowing, so that a fault in the fold's own definition is noticed."""
    before = event.device == other.device and event.n > other.n
    return before or (other.seq is not None and event.seen >= other.seq)


def plain_fold(events: Iterable[Event]) -> dict[str, Tally]:
    """The document's three steps, pair by pair, without any optimisation."""
    copies: dict[str, list[Event]] = {}
    for event in events:
        copies.setdefault(event.id, []).append(event)
    distinct = [
        replace(min(same, key=lambda copy: (copy.seq is None, copy.seq)), late=any(copy.late for copy in same))
        for same in copies.values()
    ]
    timely = [event for event in distinct if not event.late and event.v == 1]
    undone = {(event.target, event.author) for event in timely if event.kind == "undo"}
    live = [e for e in timely if e.kind in ("set", "add") and (e.id, e.author) not in undone]
    return {line: plain_tally([e for e in live if e.line == line]) for line in {e.line for e in live}}


def plain_tally(live: list[Event]) -> Tally:
    sets = [event for event in live if event.kind == "set"]
    tops = [top for top in sets if not any(saw(other, top) for other in sets if other is not top)]
    adds = [e for e in live if e.kind == "add" and not any(saw(other, e) for other in sets)]
    bases = [((top.total, top.damaged), [a for a in adds if saw(a, top)]) for top in tops] or [((0, 0), adds)]
    candidates = [
        tuple(base[at] + sum((add.total, add.damaged)[at] for add in some) for at in (0, 1))
        for base, knowing in bases
        for some in (knowing, adds)
    ]
    certain = (
        len({base for base, _ in bases}) == 1
        and all(len(knowing) == len(adds) for _, knowing in bases)
        and all(saw(a, b) or saw(b, a) for a, b in combinations(adds, 2))
        and all(0 <= damaged <= total for total, damaged in candidates)
    )
    total, damaged = max(candidates)
    return Tally(total, damaged, min(total for total, _ in candidates), not certain)


@settings(max_examples=many(1000))
@given(any_history)
def test_it_is_what_the_document_says_pair_by_pair(events):
    assert fold(events) == plain_fold(events)


@given(any_history, seeds)
def test_order_and_repetition_do_not_matter(events, seed):
    chance = Random(seed)
    again = events + [chance.choice(events) for _ in range(5)] if events else []
    chance.shuffle(again)
    assert fold(again) == fold(events)


@given(sound)
def test_a_queued_copy_beside_the_one_in_the_log_changes_nothing(events):
    queued = [replace(event, seq=None, late=False) for event in events]
    assert fold(queued + events) == fold(events)
    assert fold(events + queued) == fold(events)


@given(any_history)
def test_late_events_change_nothing(events):
    late = {event.id for event in events if event.late}
    assert fold(events) == fold([event for event in events if event.id not in late])


@given(any_history)
def test_taking_back_what_one_undid_from_the_start_is_the_same(events):
    undone = {
        (e.target, e.author)
        for e in events
        if e.kind == "undo" and e.v == 1 and not any(copy.late for copy in events if copy.id == e.id)
    }
    assert fold(events) == fold([event for event in events if (event.id, event.author) not in undone])


@given(sound, st.sampled_from(LINES), st.integers(0, 9))
def test_one_fresh_count_by_someone_who_pulled_everything_settles_a_line(events, line, total):
    logged = [replace(event, seq=at) for at, event in enumerate(events, start=1)]
    logged = list({event.id: event for event in logged}.values())
    fresh = an_event("fresh", line=line, total=total, damaged=0, device="new", seen=len(events))
    assert fold([*logged, fresh])[line] == Tally(total, 0, total, False)


@given(any_history)
def test_a_line_that_is_certain_has_one_total(events):
    for tally in fold(events).values():
        assert tally.low <= tally.total
        assert tally.confirm or (tally.low == tally.total and 0 <= tally.damaged <= tally.total)


@given(sound, st.sampled_from(LINES))
def test_two_different_counts_that_did_not_know_one_another_are_to_be_confirmed(events, line):
    apart = [
        an_event("x", line=line, total=3, device="x", seen=len(events)),
        an_event("y", line=line, total=4, device="y", seen=len(events)),
    ]
    logged = [replace(event, seq=at) for at, event in enumerate(events, start=1)]
    assert fold([*{event.id: event for event in logged}.values(), *apart])[line].confirm


def an_event(name: str, **change: object) -> Event:
    plain = Event(name, "pin", "set", 4, 0, None, "shelf", 1, 0, "ines", None)
    return replace(plain, **change)


@pytest.mark.parametrize("change", [{"kind": "halve"}, {"kind": "note"}, {"v": 2}])
def test_what_is_not_known_here_is_left_out(change):
    counted = an_event("one")
    assert fold([counted, an_event("two", n=2, total=9, **change)]) == fold([counted])


@pytest.mark.parametrize("late_copy", [0, 1])
def test_one_late_copy_makes_the_event_late(late_copy):
    copies = [an_event("one"), an_event("one", seq=1)]
    copies[late_copy] = replace(copies[late_copy], late=True)
    assert fold(copies) == fold(copies[::-1]) == {}


def test_an_undo_acts_on_its_target_whatever_line_it_names():
    undo = an_event("two", n=2, kind="undo", total=None, damaged=None, target="one", line="clamp")
    assert fold([an_event("one"), undo]) == {}


def test_undoing_an_undo_does_nothing():
    undo = an_event("two", n=2, kind="undo", total=None, damaged=None, target="one")
    assert fold([an_event("one"), undo, replace(undo, id="three", n=3, target="two")]) == {}


def test_the_digest_is_of_the_canonical_text():
    tallies = {"\U0001f529": Tally(6, 1, 6, False), "9": Tally(1, 0, 0, True), "10": Tally(0, 0, 0, False)}
    text = '{"10":[0,0,0,false],"9":[1,0,0,true],"\U0001f529":[6,1,6,false]}'
    assert digest(tallies) == sha256(text.encode()).hexdigest()


@given(sound)
def test_the_digest_does_not_depend_on_the_order_of_events(events):
    assert digest(fold(events[::-1])) == digest(fold(events))


def test_the_front_end_folds_histories_to_the_same_tallies():
    played = list(histories(many(5000)))
    sent = json.dumps([[asdict(event) for event in events] for events in played])
    run = subprocess.run(["node", SCRIPT], input=sent, capture_output=True, text=True, check=False, timeout=120)
    assert run.returncode == 0, run.stderr
    answers = json.loads(run.stdout)
    assert len(answers) == len(played)
    for seed, (events, answer) in enumerate(zip(played, answers, strict=True)):
        tallies = fold(events)
        assert answer["lines"] == {line: asdict(tally) for line, tally in tallies.items()}, f"history {seed}"
        assert answer["digest"] == digest(tallies), f"history {seed}"
