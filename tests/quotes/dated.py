"""A workshop with opening hours and lead days, on Tue 1 Dec 2026 at nine, for tests of promise dates."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.utils import timezone

from kitting.models import Kit, Offer
from shop.models import Calendar
from tests.cast import Cast
from tests.prepared import prepared
from tests.quotes.stage import Stage, make_stage, watched

ZONE = ZoneInfo("Europe/Berlin")
OPEN = [["08:00", "12:00"], ["13:00", "17:00"]]
Clock = Callable[[datetime], None]


def local(day: int, hour: int = 9, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    """Sets the server's clock; it starts on Tue 1 Dec 2026, 9:00 in the shop."""

    def to(instant: datetime) -> None:
        monkeypatch.setattr(timezone, "now", lambda: instant.astimezone(UTC))

    to(local(1))
    return to


@pytest.fixture
def stage(cast: Cast, clock: Clock, request: pytest.FixtureRequest) -> Iterator[Stage]:
    """The turbocharger kit comes in 5 days, the towing kit in 9, oil in 2; open on weekdays."""
    with watched(prepared(_dated_stage, cast), request.function) as stage:
        yield stage


def _dated_stage(cast: Cast) -> Stage:
    stage = make_stage(cast)
    Calendar.objects.create(shop=cast.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    Offer.objects.filter(shop=cast.shop).update(lead_days=2)
    leads(stage.turbo, 5)
    leads(stage.towing, 9)
    return stage


def leads(kit: Kit, days: int | None) -> None:
    Offer.objects.filter(part=kit.part).update(lead_days=days)


def ready(quote: dict[str, Any]) -> str:
    return quote["promise"]["ready"]["words"]


def change(stage: Stage, quote: dict[str, Any], **changes: Any) -> dict[str, Any]:
    answer = stage.client.patch(f"quotes/{quote['id']}", changes, seen=f'"{quote["version"]}"')
    assert answer.status_code == 200, answer.content
    return answer.json()


def send(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    return stage.as_before(_send, quote["id"], quote["version"])


def _send(stage: Stage, _: Any, quote: str, version: int) -> dict[str, Any]:
    answer = stage.client.post(f"quotes/{quote}/send", {"version": version, "recipient": "x"})
    assert answer.status_code == 201, answer.content
    sent: dict[str, Any] = answer.json()
    return sent
