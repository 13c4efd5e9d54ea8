"""Phones on a workshop floor and their server, with a record of the content of each screen.

`saw` is recorded at each action, from the phone's own content. The tests judge the fold by it, so nothing in this
module uses the fold or its definition of knowing.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from kitting.calc.counting import Event
from kitting.calc.observation import clamped

FIRST_EPOCH = 1


@dataclass(frozen=True)
class Kept:
    """An event as its phone made it, with the epoch of the log on the screen."""

    event: Event
    epoch: int


@dataclass
class Server:
    """The log of one list. A restore replaces it with the last backup and begins a new epoch."""

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
    """One browser store; after a wipe it is another device.

    `queue` may still contain events that came back in the log.
    """

    device: str
    made: int = 0
    queue: list[Kept] = field(default_factory=list)
    own: dict[str, Kept] = field(default_factory=dict)
    pulled: list[Event] = field(default_factory=list)
    epoch: int = FIRST_EPOCH

    @property
    def screen(self) -> list[Event]:
        """The events that the phone folds. A queued event from before a restore counts only for its own device."""
        return self.pulled + [
            queued.event if queued.epoch == self.epoch else replace(queued.event, seen=0) for queued in self.queue
        ]

    def pull(self, server: Server, most: int) -> None:
        """Pulls the next `most` events. After a restore everything is pulled again and sent events are queued again."""
        if server.epoch != self.epoch:
            again = {event.id: self.own[event.id] for event in self.pulled if event.id in self.own}
            again |= {queued.event.id: queued for queued in self.queue}
            self.queue = sorted(again.values(), key=lambda queued: queued.event.n)
            self.pulled, self.epoch = [], server.epoch
        self.pulled += server.log[len(self.pulled) : len(self.pulled) + most]

    def tidy(self) -> None:
        """Removes events from the queue that came back from the server."""
        stored = {(event.device, event.n) for event in self.pulled}
        self.queue = [queued for queued in self.queue if (queued.event.device, queued.event.n) not in stored]


@dataclass(frozen=True)
class Begun:
    """The figures on a pad when it was opened."""

    device: str
    epoch: int
    seen: int
    screen: frozenset[str]


class Floor:
    """Phones by name, the server, and for every event the content of its author's screen."""

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
        """A person makes an event on a phone. It is queued, and the content of the screen is recorded.

        `begun`: the pad has been open since then, and newer counts were not chosen over.
        """
        phone = self.phones[name]
        phone.made += 1
        at = begun or self.begin(name)
        id = f"{phone.device}-{phone.made}"
        event = Event(id, line, kind, *numbers, target, phone.device, phone.made, at.seen, author, None)
        own = {event.id for event in phone.screen if event.device == phone.device}
        self.saw[id] = at.screen | own  # a device knows all its own counts
        self.when[id], self.device[id] = at.epoch, phone.device
        phone.own[id] = Kept(event, at.epoch)
        phone.queue.append(phone.own[id])
        return event

    def begin(self, name: str) -> "Begun":
        """A person opens the pad of a line: its content is the basis of their count."""
        phone = self.phones[name]
        return Begun(phone.device, phone.epoch, len(phone.pulled), frozenset(event.id for event in phone.screen))

    def send(self, name: str, most: int = 200) -> None:
        self.server.store(self.phones[name].queue[:most])

    def pull(self, name: str, most: int = 500) -> None:
        self.phones[name].pull(self.server, most)
        self.phones[name].tidy()

    def wipe(self, name: str) -> None:
        """Empties the browser's store: the queue is lost, and the phone becomes a new device."""
        self._wiped += 1
        self.phones[name] = Phone(f"{name}{self._wiped}")

    def settle(self) -> None:
        """Everyone sends and pulls until no queue has anything left."""
        for _ in range(2):
            for name in self.phones:
                self.pull(name)
                self.send(name)
        for name in self.phones:
            self.pull(name)

    def vouched(self, event: str, other: str) -> bool:
        """True if `other` was on the screen when `event` was made and no restore has lost it since."""
        if self.device[event] == self.device[other]:
            return other in self.saw[event]
        return other in self.saw[event] and self.server.lost.get(other, 0) < self.when[event]
