"""Arrangements for tests of a change to an open job."""

import json
from typing import Any
from uuid import UUID

from kitting.models import Kit
from shop.models import Job
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage


def job_of(stage: Stage, *kits: Kit) -> Job:
    """The job opened by the acceptance of these kits, both by default."""
    stage.accepted(*kits)
    return Job.objects.latest("number")


def begin(stage: Stage, job: Job) -> dict[str, Any]:
    return stage.as_before(_begin, job.pk)


def _begin(stage: Stage, _: Any, job: UUID) -> dict[str, Any]:
    answer = stage.client.post(f"jobs/{job}/changes", {})
    assert answer.status_code == 201, answer.content
    change: dict[str, Any] = answer.json()
    return change


def text_line(stage: Stage, change: dict[str, Any], price: str = "90.00") -> dict[str, Any]:
    return stage.as_before(_text_line, change["id"], price)


def _text_line(stage: Stage, _: Any, change: str, price: str) -> dict[str, Any]:
    line = {"kind": "text", "title": "Bracket made", "unit_price": price, "tax_class": "part"}
    answer = stage.client.post(f"quotes/{change}/lines", line)
    assert answer.status_code == 201, answer.content
    changed: dict[str, Any] = answer.json()
    return changed


def off(stage: Stage, change: dict[str, Any], *titles: str) -> dict[str, Any]:
    """The change, with the items of these titles taken off."""
    items = [item for item in change["change"]["items"] if item["title"] in titles]
    body = {"items": [{"source": item["source"], "item": item["item"]} for item in items]}
    return stage.as_before(_off, change["id"], change["version"], json.dumps(body))


def _off(stage: Stage, _: Any, change: str, version: int, body: str) -> dict[str, Any]:
    answer = stage.client.put(f"quotes/{change}/taken-off", json.loads(body), seen=f'"{version}"')
    assert answer.status_code == 200, answer.content
    changed: dict[str, Any] = answer.json()
    return changed


def send(stage: Stage, change: dict[str, Any]) -> dict[str, Any]:
    return stage.as_before(_send, change["id"], change["version"])


def _send(stage: Stage, _: Any, change: str, version: int) -> dict[str, Any]:
    body = {"version": version, "recipient": "01632 960 417", "below_floor": True}
    answer = stage.client.post(f"quotes/{change}/send", body)
    assert answer.status_code == 201, answer.content
    sent: dict[str, Any] = answer.json()
    return sent


def accept(stage: Stage, change: dict[str, Any]) -> Phone:
    phone = Phone(send(stage, change)["link"]["url"])
    assert phone.answer().status_code == 303, phone.html
    return phone
