"""Random histories of counting by several phones on one list, and the resulting log.

`sound_history` plays phones, uploads and pulls in order. `wild_history` draws each field at random, to expose a fold
that relies on properties of a correct log. `huddle` makes histories that depend on a single pair of events. All are
reproducible by their seed.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from random import Random

from kitting.calc.counting import Event

LINES = ("pin", "clamp", "hose")
PEOPLE = ("ines", "oda", "ugo")
KINDS = ("set", "set", "add", "add", "add", "undo", "note", "halve")


@dataclass
class Phone:
    """A device with its queue and the log place it has pulled to; several people use it."""

    device: str
    made: list[Event] = field(default_factory=list)
    queue: list[Event] = field(default_factory=list)
    seen: int = 0


@dataclass
class Floor:
    """The phones of one list and its log. A closed list accepts events as late."""

    chance: Random
    phones: list[Phone]
    log: list[Event] = field(default_factory=list)
    closed: bool = False

    def observe(self, phone: Phone) -> None:
        event = an_observation(self.chance, phone, phone.seen)
        phone.made.append(event)
        phone.queue.append(event)

    def upload(self, phone: Phone) -> None:
        for _ in range(self.chance.randint(0, len(phone.queue))):
            event = phone.queue.pop(0)
            self.log.append(replace(event, seq=len(self.log) + 1, late=self.closed))

    def pull(self, phone: Phone) -> None:
        phone.seen = self.chance.randint(phone.seen, len(self.log))

    def turn(self, phone: Phone) -> None:
        """Closes the list, or opens it again."""
        self.closed = self.chance.random() < 0.3


def an_observation(chance: Random, phone: Phone, seen: int) -> Event:
    kind = chance.choice(KINDS)
    counts = kind in ("set", "add")
    total = chance.randint(0, 6) if kind == "set" else chance.randint(-2, 2)
    damaged = chance.randint(0, total) if kind == "set" else chance.randint(-1, 1)
    n = len(phone.made) + 1
    return Event(
        id=f"{phone.device}-{n}",
        line=chance.choice(LINES),
        kind=kind,
        total=total if counts else None,
        damaged=damaged if counts else None,
        target=chance.choice(phone.made).id if kind == "undo" and phone.made else None,
        device=phone.device,
        n=n,
        seen=seen,
        author=chance.choice(PEOPLE[: chance.choice((1, 3))]),
        seq=None,
        v=1 if chance.random() < 0.97 else 2,
    )


def sound_history(seed: int) -> list[Event]:
    """The events of a phone that has pulled everything, in any order: log, queues, and copies of either."""
    chance = Random(seed)
    floor = Floor(chance, [Phone(name) for name in "abcd"[: chance.randint(1, 4)]])
    acts = [floor.observe, floor.observe, floor.observe, floor.upload, floor.pull, floor.pull]
    for _ in range(chance.randint(1, 40)):
        chance.choice(acts if chance.random() < 0.97 else [floor.turn])(chance.choice(floor.phones))
    events = floor.log + [event for phone in floor.phones for event in chance.choice((phone.queue, phone.made))]
    chance.shuffle(events)
    return events


def wild_history(seed: int) -> list[Event]:
    """Events whose n, seen and seq are inconsistent."""
    chance = Random(seed)
    phones = [Phone(name) for name in "ab"]
    events = []
    for at in range(chance.randint(1, 12)):
        phone = chance.choice(phones)
        event = an_observation(chance, phone, chance.randint(0, 8))
        phone.made.append(event)
        seq = chance.choice((None, chance.randint(1, 9)))
        events.append(replace(event, id=f"w{at}", n=chance.randint(1, 6), seq=seq, late=chance.random() < 0.1))
    return events


def huddle(seed: int) -> list[Event]:
    """Pieces added to one line by people who almost all knew of one another, so that a single gap decides."""
    chance = Random(seed)
    events = []
    for at in range(chance.randint(2, 5)):
        seen, seq = chance.randint(0, 4), chance.choice((None, 1, 1, 2, 2, 3))
        events.append(Event(f"h{at}", "pin", "add", 1, 0, None, chance.choice("abc"), at % 3, seen, "ines", seq))
    return events


def histories(count: int) -> Iterator[list[Event]]:
    """`count` histories, alternating between the three kinds."""
    kinds = (sound_history, wild_history, huddle)
    return (kinds[seed % 3](seed) for seed in range(count))
