"""Somebody at a phone, over HTTP: signs in, counts, pulls. Keeps what it sent and what it was answered."""

import http.client
import json
import threading
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from tests.cast import PASSWORD
from tests.drills.installation import Installation

HAS_IT = {"stored", "duplicate", "late"}


class NoAnswerError(Exception):
    """The server went away: nobody knows whether the request arrived."""


@dataclass
class Visitor:
    """A person at a phone with their counts (`events`), and those that the server has acknowledged.

    `answered` is {id: seq}, `heard` {id: the time of the acknowledgement}.
    """

    site: Installation
    world: dict[str, Any]
    list: str
    device: str = field(default_factory=lambda: str(uuid.uuid4()))
    cookies: dict[str, str] = field(default_factory=dict)
    events: list[dict[str, Any]] = field(default_factory=list)
    answered: dict[str, int] = field(default_factory=dict)
    heard: dict[str, datetime] = field(default_factory=dict)
    epoch: int = 1
    seen: int = 0

    def ask(self, method: str, path: str, body: Any = None, **more: str) -> tuple[int, Any]:
        """(status, JSON) of a request. `body` goes as JSON, bytes as they are; `more` are further headers."""
        connection = http.client.HTTPConnection("127.0.0.1", self.site.port, timeout=60)
        headers = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        token = next((value for name, value in self.cookies.items() if name.endswith("csrftoken")), "")
        headers |= {"X-CSRFToken": token, "Content-Type": "application/json"} | more
        sent = body if body is None or isinstance(body, bytes) else json.dumps(body)
        try:
            connection.request(method, path, sent, headers)
            answer = connection.getresponse()
            text = answer.read()
        except (OSError, http.client.HTTPException) as error:
            raise NoAnswerError from error
        finally:
            connection.close()
        for name, value in answer.getheaders():
            if name.lower() == "set-cookie":
                cookie, _, rest = value.partition(";")[0].partition("=")
                self.cookies[cookie] = rest
        return answer.status, json.loads(text) if text else None

    def sign_in(self) -> None:
        self.ask("GET", "/api/v1/session")
        status, answer = self.ask("POST", "/api/v1/session", {"email": self.world["email"], "password": PASSWORD})
        assert status == 200, answer

    @property
    def address(self) -> str:
        return f"/api/v1/shops/{self.world['slug']}/pull-lists/{self.list}/events"

    def count(self, **more: Any) -> dict[str, Any]:
        """One more event, kept here and not yet sent."""
        lines = self.world["lists"][self.list]
        n = len(self.events) + 1
        event = {"v": 1, "id": str(uuid.uuid4()), "list": self.list, "line": lines[n % len(lines)], "kind": "set"}
        event |= {"total": n % 40 + 1, "damaged": 0, "target": None, "device": self.device, "n": n}
        event |= {"epoch": self.epoch, "seen": self.seen, "made_at": "2026-11-24T10:15:00Z"}
        self.events.append(event | more)
        return self.events[-1]

    def send(self, events: list[dict[str, Any]]) -> list[dict[str, Any]]:
        status, answer = self.ask("POST", self.address, {"events": events})
        assert status == 200, (status, answer)
        for result in answer["results"]:
            assert result["status"] in HAS_IT, result
            self.heard.setdefault(result["id"], datetime.now(UTC))
            before = self.answered.setdefault(result["id"], result["seq"])
            assert before == result["seq"], f"{result['id']} was {before} and is {result['seq']}"
        return list(answer["results"])

    def waiting(self) -> list[dict[str, Any]]:
        return [event for event in self.events if event["id"] not in self.answered]

    def pull(self) -> dict[str, Any]:
        """The whole log, with the last page's digest, seq and epoch."""
        events: list[dict[str, Any]] = []
        while True:
            status, page = self.ask("GET", f"{self.address}?after={len(events)}&limit=500")
            assert status == 200, (status, page)
            events += page["events"]
            if not page["more"]:
                return {**page, "events": events}


def at_work(visitors: list[Visitor], go_on: Callable[[], bool]) -> list[threading.Thread]:
    """Each visitor counts and sends until `go_on` says no, or the server goes away; what waits is sent first."""

    def work(visitor: Visitor) -> None:
        try:
            while go_on():
                for _ in range(1 + len(visitor.events) % 3):
                    visitor.count()
                visitor.send(visitor.waiting()[:200])
        except NoAnswerError:
            pass

    threads = [threading.Thread(target=work, args=(visitor,)) for visitor in visitors]
    for thread in threads:
        thread.start()
    return threads
