"""The people who counted the lines of a pull list or noted a wrong part there, with times."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from kitting.calc.counting import Event, standing
from kitting.calc.observed import ObservedEvent, wrong_part_notes
from kitting.models import CountEvent, PullList
from shop.access import Actor
from shop.words import say


@dataclass(frozen=True, slots=True)
class Counter:
    """A person who counted or noted. `at` is the phone's time, or the time of storing if that is earlier."""

    who: str
    at: datetime
    words: str


def counters(
    actor: Actor, pull_list: PullList, log: Sequence[ObservedEvent], expected: Mapping[str, int]
) -> dict[str, list[Counter]]:
    """{line: the counts of `log` that stand, in its order, then its wrong-part notes}, in one query.

    `log` is the list's log, `expected` the pieces of each line.
    """
    by_id = {entry.event.id: entry for entry in log}
    stands = {line: list(events) for line, events in standing(entry.event for entry in log).items()}
    for note in wrong_part_notes(log, expected):
        stands.setdefault(note.line, []).append(note)
    people = _people(actor, pull_list)
    return {line: [_counter(by_id[event.id], people[event.id]) for event in events] for line, events in stands.items()}


def _people(actor: Actor, pull_list: PullList) -> dict[str, tuple[str, datetime]]:
    rows = CountEvent.objects.filter(shop=actor.shop, pull_list=pull_list)
    values = rows.values_list("pk", "author__user__name", "made_at", "stored_at")
    return {str(id): (name, min(made_at, stored_at)) for id, name, made_at, stored_at in values}


def _counter(entry: ObservedEvent, by: tuple[str, datetime]) -> Counter:
    name, at = by
    return Counter(name, at, _words(entry.event, str(entry.extra.get("how", ""))))


HOW = {"weighed": "counted.weighed", "sealed": "counted.sealed"}


def _words(event: Event, how: str) -> str:
    if event.kind == "note":
        return say("counted.wrong_part")
    total, damaged = event.numbers
    if event.kind == "add":
        return say("counted.more", n=total)
    if damaged:
        return say("counted.damaged", n=total, damaged=damaged)
    return say(HOW.get(how, "counted.set"), n=total)
