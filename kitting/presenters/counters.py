"""The people who counted the lines of a pull list, with times."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from kitting.calc.counting import Event, standing
from kitting.calc.observed import ObservedEvent
from kitting.models import CountEvent, PullList
from shop.access import Actor
from shop.words import say


@dataclass(frozen=True, slots=True)
class Counter:
    """A person who counted. `at` is the phone's time, or the time of storing if that is earlier."""

    who: str
    at: datetime
    words: str


def counters(actor: Actor, pull_list: PullList, log: Sequence[ObservedEvent]) -> dict[str, list[Counter]]:
    """{line: the counts of `log` that stand, in its order}, in one query. `log` is the list's log."""
    by_id = {entry.event.id: entry for entry in log}
    stands = standing(entry.event for entry in log)
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
    total, damaged = event.numbers
    if event.kind == "add":
        return say("counted.more", n=total)
    if damaged:
        return say("counted.damaged", n=total, damaged=damaged)
    return say(HOW.get(how, "counted.set"), n=total)
