"""A workshop leaves SQLite: every row and paper is in PostgreSQL, and its people keep their passwords."""

import os
import re
import shutil
import sqlite3
import zipfile
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from uuid import uuid4

import pytest
from django.conf import settings
from django.db import connection

from shop.archives import moving
from shop.archives.manifest import ArchiveError
from shop.archives.taking import export_shop
from tests import database
from tests.archives.forged import edited, rewritten
from tests.cast import make_cast
from tests.drills.installation import Installation, filled, new_database
from tests.drills.visitor import Visitor
from tests.examples import LONG
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

NOW = datetime(2026, 11, 28, 6, 0, tzinfo=UTC)


@pytest.fixture
def exported(transactional_db: None, tmp_path: Path) -> Path:
    make_stage(make_cast()).sent()
    export_shop("saltmarsh", tmp_path / "shop.zip", NOW)
    return tmp_path / "shop.zip"


def compared(source: Path, back: Path) -> moving.Moved:
    with zipfile.ZipFile(source) as file:
        return moving.compared(source, back, moving.checked(file))


def changed(source: Path, table: str, column: str) -> Path:
    """The same archive with another text in the first row of a table."""
    return rewritten(
        source,
        source.with_name("back.zip"),
        lambda parts: edited(parts, table, lambda rows: rows[0].__setitem__(column, "7")),
    )


def test_one_other_cell_is_a_difference(exported: Path) -> None:
    for table, column in (("shop_customer", "name"), ("quotes_revision", "net"), ("shop_shop", "name")):
        with pytest.raises(ArchiveError, match=f"tables/{table}.csv is not the same"):
            compared(exported, changed(exported, table, column))


def test_what_an_import_changes_is_no_difference(exported: Path) -> None:
    same = compared(exported, exported)
    assert compared(exported, changed(exported, "shop_shop", "log_epoch")) == same
    assert same.files == 1 and same.rows > 50


def test_the_order_of_names_in_a_document_is_no_difference_and_its_figures_are(exported: Path) -> None:
    def written(text: str) -> Path:
        return rewritten(
            exported,
            exported.with_name("back.zip"),
            lambda parts: edited(parts, "shop_ruleset", lambda rows: rows[0].__setitem__("rules", text)),
        )

    first = exported.with_name("first.zip")
    written('{"a": 1.50, "b": [1, 2]}').rename(first)
    assert compared(first, written('{"b": [1, 2], "a": 1.50}')) == compared(first, first)
    for other in ('{"a": 1.51, "b": [1, 2]}', '{"a": 1.50, "b": [2, 1]}'):
        with pytest.raises(ArchiveError, match="shop_ruleset"):
            compared(first, written(other))


def test_another_paper_is_a_difference(exported: Path) -> None:
    def other_paper(parts: dict[str, bytes]) -> None:
        parts[next(name for name in parts if name.startswith("files/"))] += b"x"

    with pytest.raises(ArchiveError, match=r"files/papers/.* is not the same"):
        compared(exported, rewritten(exported, exported.with_name("back.zip"), other_paper))


@pytest.fixture
def workshop(tmp_path: Path) -> tuple[Installation, dict]:
    """A filled installation on SQLite, whatever database the tests run on."""
    (tmp_path / "var").mkdir(mode=0o700)
    site = Installation(tmp_path / "var", "")
    return site, filled(site)


@pytest.mark.drill
def test_only_a_server_that_stands_still_moves_and_only_to_postgresql(workshop: tuple[Installation, dict]) -> None:
    site, _ = workshop
    assert "name a PostgreSQL database" in site.manage("move", "--to", "sqlite:////tmp/other.sqlite3", fails=True)
    with site.served():
        refused = site.manage("move", "--to", "postgres://kitwright@127.0.0.1:1/kitwright", fails=True)
    assert "Stop the server first" in refused
    refused = site.manage("move", "--to", "postgres://kitwright@127.0.0.1:1/kitwright", fails=True)
    assert "does not take our tables" in refused and "Traceback" not in refused
    assert [path.name for path in site.home.glob("move-*")] == []


def with_second_factor(site: Installation, world: dict) -> tuple[str, str]:
    """Gives somebody a second factor. Returns the shop and the e-mail address of that person."""
    with closing(sqlite3.connect(site.file)) as database, database:
        person, email, shop = database.execute(
            "SELECT u.id, u.email, s.slug FROM shop_user u JOIN shop_member m ON m.user_id = u.id"
            " JOIN shop_shop s ON s.id = m.shop_id WHERE u.email <> ?",
            [world["email"]],
        ).fetchone()
        database.execute("UPDATE shop_user SET second_factor_since = '2026-11-28 06:00:00' WHERE id = ?", [person])
        row = {"id": uuid4().hex, "sealed": "00" * 20, "last_step": 0, "user_id": person}
        database.execute("INSERT INTO shop_authenticator VALUES (:id, :sealed, :last_step, :user_id)", row)
    return shop, email


@pytest.mark.both
@pytest.mark.drill
def test_a_workshop_moves_to_postgresql(request: pytest.FixtureRequest, db: None) -> None:
    if connection.vendor != "postgresql":
        assert "DATABASE_URL" not in os.environ, "the run on PostgreSQL moves it"
        return
    site, world = request.getfixturevalue("workshop")
    shop, email = with_second_factor(site, world)
    papers = sorted(path.name for path in (site.home / "media").rglob("*") if path.is_file())
    target = new_database("template1" if LONG else database.migrated_template(settings.VAR_DIR))
    output = site.manage("move", "--to", target)
    for slug in ("elsewhere", "saltmarsh"):
        content = r"\d+ rows in \d+ tables, \d files, the same in both: SHA-256 [0-9a-f]{64}"
        assert re.search(f"^{slug}: {content}$", output, re.MULTILINE)
    with closing(sqlite3.connect(site.file)) as old, closing(sqlite3.connect(":memory:")) as copy:
        old.backup(copy)
        assert copy.execute("SELECT count(*) FROM shop_member").fetchone() == (5,)
    assert "shops in that database already" in site.manage("move", "--to", target, fails=True)
    moved = replace(site, database=target)
    off = moved.manage("member", email, "--shop", shop, "--second-factor-off")
    assert f"switched the second factor of {email} off" in off
    with moved.served():
        person = Visitor(moved, world, next(iter(world["lists"])))
        person.sign_in()
        assert person.ask("GET", f"/api/v1/shops/{world['slug']}/pull-lists")[0] == 200
    assert sorted(path.name for path in (site.home / "media").rglob("*") if path.is_file()) == papers
    shutil.rmtree(site.home)
