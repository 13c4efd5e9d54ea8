"""A bench with kits, a job on the floor, and the server's clock."""

from datetime import UTC, datetime
from typing import Any

import pytest
from django.utils import timezone

from tests.cast import Cast
from tests.kitting.floor import Floor, local
from tests.kitting.stage import Bench
from tests.prepared import prepared


@pytest.fixture
def bench(cast: Cast) -> Bench:
    return Bench(cast)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Sets the server's clock; it starts on Tue 1 Dec 2026, 8:00 in the shop."""

    def to(instant: datetime) -> None:
        monkeypatch.setattr(timezone, "now", lambda: instant.astimezone(UTC))

    to(local(1, 8))
    return to


@pytest.fixture
def floor(cast: Cast, clock: Any) -> Floor:
    return prepared(Floor, cast)
