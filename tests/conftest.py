"""The fixtures of every test: the fixed cast, a client that checks each answer against OpenAPI, and the flush."""

import sqlite3
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from django.conf import DEFAULT_STORAGE_ALIAS, settings
from django.contrib.auth import hashers
from django.core.files.storage import default_storage, storages
from django.core.management.commands import flush
from django.db import connection
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.signals import connection_created
from django.test.signals import storages_changed
from django.utils import timezone
from django.utils.functional import empty
from pytest_django.plugin import DjangoDbBlocker

from shop import sqlite
from shop.constraints import refusals_suspended
from shop.documents import pdf
from tests import database
from tests.cast import Cast, make_cast
from tests.client import CheckedClient
from tests.examples import LONG
from tests.paper import set_nothing

OF_A_DATABASE = {"db", "transactional_db", "seed", "elsewhere"}  # the last two are whole installations


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Skips tests on PostgreSQL whose outcome does not depend on the database."""
    if connection.vendor == "sqlite":
        return
    once = {item for item in items if not is_of_every_database(item)}
    items[:] = [item for item in items if item not in once]
    config.hook.pytest_deselected(items=list(once))


def is_of_every_database(item: pytest.Item) -> bool:
    """A test that uses the database, and asserts more than what Python sets, words or works out from its rows."""
    if not uses_the_database(item) or item.get_closest_marker("paper"):
        return False
    return LONG or not item.get_closest_marker("once") or item.get_closest_marker("both") is not None


def uses_the_database(item: pytest.Item) -> bool:
    asked_for = OF_A_DATABASE.intersection(getattr(item, "fixturenames", ()))
    return bool(asked_for) or item.get_closest_marker("django_db") is not None


@pytest.fixture(scope="session", autouse=True)
def flush_past_the_refusals() -> None:
    """Transactional tests empty the tables between them; append-only rows would refuse.

    On SQLite a copy of the emptied database is put back the next time: that takes a fifth of the time.
    """
    plain = flush.Command.handle
    emptied: dict[Path, sqlite3.Connection] = {}

    def handle(self: flush.Command, **options: object) -> None:
        path = sqlite.database_path()
        if path and path in emptied:
            connection.ensure_connection()
            emptied[path].backup(connection.connection)
        else:
            with refusals_suspended():
                plain(self, **options)
        if path and path not in emptied:
            emptied[path] = sqlite3.connect(":memory:")
            connection.connection.backup(emptied[path])
        if path:
            sqlite.checkpoint(path)  # no connection does it by itself

    flush.Command.handle = handle  # type: ignore[method-assign, assignment]


@pytest.fixture(scope="session")
def django_db_modify_db_settings(
    request: pytest.FixtureRequest,
    django_db_modify_db_settings_parallel_suffix: None,
    django_db_blocker: DjangoDbBlocker,
) -> Iterator[None]:
    """Has the tests' database copied from a migrated one, unless an older one is to be kept."""
    test = connection.settings_dict["TEST"]
    if connection.vendor != "sqlite":
        with django_db_blocker.unblock():
            test["TEMPLATE"] = database.migrated_template(settings.VAR_DIR)
        yield
        return
    file, reuse = Path(test["NAME"]), request.config.getvalue("reuse_db")
    if not (reuse and file.exists()) or request.config.getvalue("create_db"):
        database.remove(file)
        database.copy(database.migrated(settings.VAR_DIR), file)
    yield
    if not reuse:
        database.remove(file)


@pytest.fixture(scope="session")
def django_db_keepdb(request: pytest.FixtureRequest) -> bool:
    """A copied database is not created again. Migrations that a kept one lacks are run in it."""
    return connection.vendor == "sqlite" or bool(request.config.getvalue("reuse_db"))


@pytest.fixture(scope="session")
def django_db_createdb(request: pytest.FixtureRequest) -> bool:
    return connection.vendor != "sqlite" and bool(request.config.getvalue("create_db"))


@pytest.fixture(scope="session", autouse=True)
def no_wait_for_the_disk() -> None:
    """A test's database need not outlive a power cut. Processes that a test starts keep the settings of production."""

    def hurry(connection: BaseDatabaseWrapper, **_: object) -> None:
        if connection.vendor == "sqlite":
            with connection.cursor() as cursor:
                cursor.execute("PRAGMA synchronous=OFF")

    connection_created.connect(hurry, weak=False)


@pytest.fixture(scope="session", autouse=True)
def quick_hashes() -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    hashers.get_hashers.cache_clear()


@pytest.fixture(scope="session", autouse=True)
def no_collected_files(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Each test client builds its middleware, and WhiteNoise would look at every file that `make demo` collected."""
    settings.STATIC_ROOT = tmp_path_factory.mktemp("static")


@pytest.fixture(scope="session", autouse=True)
def papers_in_memory() -> None:
    """Keeps printed papers in memory, so that no test leaves files on the disk."""
    settings.STORAGES = settings.STORAGES | {"default": {"BACKEND": "django.core.files.storage.InMemoryStorage"}}
    storages_changed(setting="STORAGES")


@pytest.fixture(autouse=True)
def papers_for_one_test() -> None:
    """Forgets the papers of earlier tests, so that each test prints its own."""
    storages._storages.pop(DEFAULT_STORAGE_ALIAS, None)
    default_storage._wrapped = empty


@pytest.fixture(autouse=True)
def papers_at_once(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages are really set only in tests marked `paper`."""
    if not request.node.get_closest_marker("paper"):
        monkeypatch.setattr(pdf, "render", set_nothing)


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
