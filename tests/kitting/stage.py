"""A phone that counts, and what it takes to be believed."""

import uuid
from dataclasses import dataclass, field
from typing import Any

from kitting.models import PullLine, PullList
from tests.cast import Cast
from tests.factories import PullLineFactory, PullListFactory


@dataclass
class Phone:
    """Makes events as the app does: an id each, its own counter, and what it has pulled."""

    pull_list: PullList
    device: str = field(default_factory=lambda: str(uuid.uuid4()))
    n: int = 0
    seen: int = 0
    epoch: int = 1

    def event(self, of: PullLine | str, kind: str = "set", total: Any = 4, damaged: Any = 0, **more: Any) -> dict:
        self.n += 1
        return {
            "v": 1,
            "id": str(uuid.uuid4()),
            "list": str(self.pull_list.pk),
            "line": str(getattr(of, "pk", of)),
            "kind": kind,
            "total": total,
            "damaged": damaged,
            "target": None,
            "device": self.device,
            "n": self.n,
            "epoch": self.epoch,
            "seen": self.seen,
            "made_at": "2026-11-24T10:15:00Z",
            **more,
        }

    def undo(self, event: dict) -> dict:
        return self.event(event["line"], "undo", None, None, target=event["id"])

    def note(self, line: PullLine, what: str) -> dict:
        return self.event(line, "note", None, None, note={"what": what})


def list_of(cast: Cast, lines: int = 3, **given: Any) -> tuple[PullList, list[PullLine]]:
    """An open list of that many lines of four pieces each."""
    pull_list = PullListFactory(shop=cast.shop)
    return pull_list, [PullLineFactory(shop=cast.shop, list=pull_list, position=n + 1, **given) for n in range(lines)]


def send(client: Any, pull_list: PullList, *events: Any) -> list[dict]:
    answer = client.post(f"pull-lists/{pull_list.pk}/events", {"events": list(events)}, key=None)
    assert answer.status_code == 200, answer.content
    return answer.json()["results"]


def pull(client: Any, pull_list: PullList, **query: Any) -> dict:
    return client.get(f"pull-lists/{pull_list.pk}/events", query).json()
