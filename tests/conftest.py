"""What every test may ask for: the fixed cast, a client that checks each answer against OpenAPI, and the flush."""

from datetime import timedelta
from typing import Any

import pytest
from django.conf import LazySettings
from django.core.management.commands import flush
from django.utils import timezone

from shop import sqlite
from shop.constraints import refusals_suspended
from tests.cast import Cast, make_cast
from tests.client import CheckedClient


@pytest.fixture(scope="session", autouse=True)
def flush_past_the_refusals() -> None:
    """Transactional tests empty the tables between them; append-only rows would refuse."""
    plain = flush.Command.handle

    def handle(self: flush.Command, **options: object) -> None:
        with refusals_suspended():
            plain(self, **options)
        if path := sqlite.database_path():
            sqlite.checkpoint(path)  # no connection does it by itself

    flush.Command.handle = handle  # type: ignore[method-assign, assignment]


@pytest.fixture(autouse=True)
def quick_hashes(settings: LazySettings) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def papers_in_memory(settings: LazySettings) -> None:
    """Nothing that a test prints is left on the disk."""
    settings.STORAGES = settings.STORAGES | {"default": {"BACKEND": "django.core.files.storage.InMemoryStorage"}}


@pytest.fixture
def cast(db: None) -> Cast:
    return make_cast()


@pytest.fixture
def client() -> CheckedClient:
    return CheckedClient()


@pytest.fixture
def later(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Moves the clock on, from the beginning of the test."""
    began = timezone.now()

    def move(**span: int) -> None:
        monkeypatch.setattr(timezone, "now", lambda: began + timedelta(**span))

    return move
