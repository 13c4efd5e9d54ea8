"""Phones without signal, lost answers, and a list that closes and opens: invariants of the log."""

import random
from dataclasses import dataclass, field
from typing import Any

import pytest

from kitting.calc.counting import Event, digest, fold
from tests.cast import Cast
from tests.kitting.stage import Phone, list_of, pull, send

ROLES = ("parts", "advisor", "technician")


@dataclass
class Carried:
    """A phone with its queue (sent and not yet pulled back) and what it has pulled."""

    phone: Phone
    client: Any
    queue: list[dict] = field(default_factory=list)
    log: list[dict] = field(default_factory=list)

    def count(self, dice: random.Random, lines: list[Any]) -> None:
        kind = dice.choice(("set", "set", "add", "undo", "note"))
        line = dice.choice(lines)
        own = [event for event in self.queue + self.log if event["kind"] in ("set", "add")]
        if kind == "undo" and own:
            event = self.phone.undo(dice.choice(own))
        elif kind == "note":
            event = self.phone.note(line, "damage")
        else:
            event = self.phone.event(line, "add" if kind == "add" else "set", dice.randint(1, 6))
        self.queue.append(event)

    def send(self, dice: random.Random) -> list[dict]:
        """Some of the queue, perhaps twice: the first answer may have been lost."""
        batch = self.queue[: dice.randint(0, len(self.queue))]
        if dice.random() < 0.3:
            send(self.client, self.phone.pull_list, *batch)
        return send(self.client, self.phone.pull_list, *batch)

    def pull(self, limit: int) -> dict:
        pulled = pull(self.client, self.phone.pull_list, after=self.phone.seen, limit=limit)
        assert [event["seq"] for event in pulled["events"]] == list(
            range(self.phone.seen + 1, self.phone.seen + 1 + len(pulled["events"]))
        )
        self.log += pulled["events"]
        self.phone.seen = pulled["seq"]
        here = {(event["device"], event["n"]) for event in self.log}
        self.queue = [event for event in self.queue if (event["device"], event["n"]) not in here]
        return pulled

    def digest(self, dropping_late: bool = False) -> str:
        names = Event.__dataclass_fields__
        events = [event for event in self.log if not (dropping_late and event["late"])]
        return digest(fold(Event(**{name: event[name] for name in names}) for event in events))


@pytest.mark.parametrize("seed", range(8))
def test_whatever_happens_nothing_is_lost_doubled_or_refused(cast: Cast, seed: int) -> None:
    dice = random.Random(seed)
    pull_list, lines = list_of(cast)
    phones = [Carried(Phone(pull_list), cast.signed_in(role)) for role in ROLES]
    manager, copies, statuses = cast.signed_in("manager"), 0, set()
    for _ in range(40):
        phone = dice.choice(phones)
        match dice.choice(("count", "count", "send", "pull", "close", "reopen")):
            case "count":
                phone.count(dice, lines)
                copies += 1
            case "send":
                statuses |= {result["status"] for result in phone.send(dice)}
            case "pull":
                pulled = phone.pull(dice.randint(1, 5))
                assert "digest" not in pulled or pulled["digest"] == phone.digest()
            case "close":
                seen = manager.get(f"pull-lists/{pull_list.pk}").json()["seq"]
                assert manager.post(f"pull-lists/{pull_list.pk}/close", {"seq": seen}).status_code in (200, 409)
            case "reopen":
                assert manager.post(f"pull-lists/{pull_list.pk}/reopen").status_code == 200
    for phone in phones:
        statuses |= {result["status"] for result in send(phone.client, pull_list, *phone.queue)}
    digests = set()
    for phone in phones:
        while phone.pull(7)["more"]:
            pass
        assert phone.queue == [] and len(phone.log) == copies
        digests |= {phone.digest(), phone.digest(dropping_late=True)}
    assert len(digests) == 1 and statuses <= {"stored", "late", "duplicate"}
