"""Phones on a workshop floor and the server they send to, with a record of what was on each screen.

`saw` is written down as a person acts, from what that phone then held: the tests judge the fold by it, so
nothing here asks the fold or its word for knowing.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from kitting.calc.counting import Event
from kitting.calc.observation import clamped

FIRST_EPOCH = 1


@dataclass(frozen=True)
class Kept:
    """An event as its phone made it, with the epoch of the log that was on the screen."""

    event: Event
    epoch: int


@dataclass
class Server:
    """The log of one list. A restore puts the last backup in its place and begins a new epoch."""

    log: list[Event] = field(default_factory=list)
    epoch: int = FIRST_EPOCH
    cuts: list[tuple[int, int]] = field(default_factory=list)
    closed: bool = False
    backup: tuple[Event, ...] = ()
    lost: dict[str, int] = field(default_factory=dict)
    """The last epoch at whose end an event was in the log and not in the backup."""

    def store(self, batch: Iterable[Kept]) -> None:
        before = len(self.log)
        for sent in batch:
            if all(event.id != sent.event.id for event in self.log):
                seen = clamped(sent.event.seen, sent.epoch, self.cuts, before)
                self.log.append(replace(sent.event, seen=seen, seq=len(self.log) + 1, late=self.closed))

    def restore(self) -> None:
        stored_ids = {event.id for event in self.backup}
        self.lost |= {event.id: self.epoch for event in self.log if event.id not in stored_ids}
        self.cuts.append((self.epoch, len(self.backup)))
        self.log = list(self.backup)
        self.epoch += 1


@dataclass
class Phone:
    """One store: a wiped one is another device. `queue` may still hold what the log has brought back."""

    device: str
    made: int = 0
    queue: list[Kept] = field(default_factory=list)
    own: dict[str, Kept] = field(default_factory=dict)
    pulled: list[Event] = field(default_factory=list)
    epoch: int = FIRST_EPOCH

    @property
    def screen(self) -> list[Event]:
        """The events that the phone folds. A waiting count from before a restore vouches for this device only."""
        return self.pulled + [
            queued.event if queued.epoch == self.epoch else replace(queued.event, seen=0) for queued in self.queue
        ]

    def pull(self, server: Server, most: int) -> None:
        """At most `most` events that follow; after a restore all is read again and what was sent waits again."""
        if server.epoch != self.epoch:
            again = {event.id: self.own[event.id] for event in self.pulled if event.id in self.own}
            again |= {queued.event.id: queued for queued in self.queue}
            self.queue = sorted(again.values(), key=lambda queued: queued.event.n)
            self.pulled, self.epoch = [], server.epoch
        self.pulled += server.log[len(self.pulled) : len(self.pulled) + most]

    def tidy(self) -> None:
        """Removes from the queue the events that came back from the server."""
        stored = {(event.device, event.n) for event in self.pulled}
        self.queue = [queued for queued in self.queue if (queued.event.device, queued.event.n) not in stored]


@dataclass(frozen=True)
class Begun:
    """The figures that a pad showed as it opened."""

    device: str
    epoch: int
    seen: int
    screen: frozenset[str]


class Floor:
    """Phones by name, the server, and for every event what its author had on the screen."""

    def __init__(self, *names: str) -> None:
        self.server = Server()
        self.phones = {name: Phone(name) for name in names}
        self.saw: dict[str, frozenset[str]] = {}
        self.when: dict[str, int] = {}
        self.device: dict[str, str] = {}
        self._wiped = 0

    def act(
        self,
        name: str,
        author: str,
        kind: str,
        line: str = "pin",
        numbers: tuple[int | None, int | None] = (None, None),
        target: str | None = None,
        begun: "Begun | None" = None,
    ) -> Event:
        """A person says something on a phone: kept in its queue, and what they had before them written down.

        `begun`: the pad stood open since then, and nothing that came in the meantime was chosen over.
        """
        phone = self.phones[name]
        phone.made += 1
        at = begun or self.begin(name)
        id = f"{phone.device}-{phone.made}"
        event = Event(id, line, kind, *numbers, target, phone.device, phone.made, at.seen, author, None)
        own = {event.id for event in phone.screen if event.device == phone.device}
        self.saw[id] = at.screen | own  # one's own counts are known, whenever they were made
        self.when[id], self.device[id] = at.epoch, phone.device
        phone.own[id] = Kept(event, at.epoch)
        phone.queue.append(phone.own[id])
        return event

    def begin(self, name: str) -> "Begun":
        """A person opens the pad of a line: what it shows then is what they count from."""
        phone = self.phones[name]
        return Begun(phone.device, phone.epoch, len(phone.pulled), frozenset(event.id for event in phone.screen))

    def send(self, name: str, most: int = 200) -> None:
        self.server.store(self.phones[name].queue[:most])

    def pull(self, name: str, most: int = 500) -> None:
        self.phones[name].pull(self.server, most)
        self.phones[name].tidy()

    def wipe(self, name: str) -> None:
        """The browser's store is emptied: the queue is gone, and whoever picks it up is a new device."""
        self._wiped += 1
        self.phones[name] = Phone(f"{name}{self._wiped}")

    def settle(self) -> None:
        """Everyone sends and pulls until nothing waits anywhere."""
        for _ in range(2):
            for name in self.phones:
                self.pull(name)
                self.send(name)
        for name in self.phones:
            self.pull(name)

    def vouched(self, event: str, other: str) -> bool:
        """Whether `other` was on the screen as `event` was made, and has not been lost to a restore since."""
        if self.device[event] == self.device[other]:
            return other in self.saw[event]
        return other in self.saw[event] and self.server.lost.get(other, 0) < self.when[event]
