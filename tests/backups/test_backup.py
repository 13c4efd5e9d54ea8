"""The backup folder: complete or absent, for its owner only, and refused if anything in it has changed."""

import json
import os
import shutil
import stat
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.utils import timezone

from shop.access import Actor
from shop.backups import new_epoch, take
from shop.backups.manifest import BackupError, read_manifest, write_manifest
from shop.backups.restore import _checked
from shop.errors import RequestError
from shop.models import CalendarFeed, EntryLink, Outbox, Webhook, WebhookMessage
from shop.queries.outbox import is_unsure
from shop.services.api_tokens import make_token, token_of
from shop.services.calendar_feeds import make_feed
from shop.services.entry_links import invite, make_password_link, open_entry
from shop.services.pins import set_pin
from shop.services.webhooks import make_webhook, send_trial
from tests.cast import make_cast, new_session
from tests.factories import PullListFactory
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

NOW = datetime(2026, 11, 26, 15, 30, tzinfo=UTC)


@pytest.fixture
def backup_folder(transactional_db: None, tmp_path: Path) -> Path:
    cast = make_cast()
    make_stage(cast).sent()
    PullListFactory(shop=cast.shop)
    new_session(cast.parts.user)
    set_pin(user=cast.parts.user, hashed="x", device="", agent="", now=NOW)
    return take.take_backup(tmp_path / "backups", NOW)


@pytest.mark.both
def test_a_backup_is_a_dated_folder_that_lists_what_it_holds(backup_folder: Path) -> None:
    assert backup_folder.name == "kitwright-20261126T153000Z"
    manifest = read_manifest(backup_folder)
    assert manifest.engine == connection.vendor and manifest.version == "0.1.0"
    assert ("shop", "0001_initial") in manifest.migrations
    assert manifest.counts["shop_member"] == 5 and manifest.counts["quotes_link"] == 1
    assert sorted(manifest.shops.values()) == [1, 1]
    database, paper = sorted(manifest.parts)
    assert database.startswith("database.") and paper.startswith("media/papers/")


def test_a_backup_is_for_its_owner_only(backup_folder: Path) -> None:
    for path in (backup_folder.parent, backup_folder, *backup_folder.rglob("*")):
        assert stat.S_IMODE(path.stat().st_mode) == (0o700 if path.is_dir() else 0o600), path


@pytest.mark.both
def test_a_backup_that_fails_leaves_nothing(
    transactional_db: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*args: Any) -> None:
        raise OSError(28, "No space left on device", "manifest.json")

    monkeypatch.setattr(take, "write_manifest", full)
    with pytest.raises(CommandError, match="No space left"):
        call_command("backup", tmp_path / "backups")
    assert list((tmp_path / "backups").iterdir()) == []


def test_nothing_has_the_backups_name_before_it_is_whole(
    transactional_db: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[list[str]] = []

    def looking(folder: Path, manifest: Any) -> None:
        seen.append([path.name for path in (tmp_path / "backups").glob("kitwright-*")])
        write_manifest(folder, manifest)

    monkeypatch.setattr(take, "write_manifest", looking)
    take.take_backup(tmp_path / "backups", NOW)
    assert seen == [[]]


def cut_short(folder: Path) -> None:
    part = next(folder.glob("database.*"))
    os.truncate(part, part.stat().st_size - 1)


def one_bit(folder: Path) -> None:
    part = next(folder.glob("database.*"))
    body = bytearray(part.read_bytes())
    body[len(body) // 2] ^= 1
    part.write_bytes(body)


def no_paper(folder: Path) -> None:
    next((folder / "media").rglob("*.pdf")).unlink()


def one_more(folder: Path) -> None:
    (folder / "media" / "extra.pdf").write_bytes(b"x")


def no_manifest(folder: Path) -> None:
    (folder / "manifest.json").unlink()


def half_a_manifest(folder: Path) -> None:
    text = (folder / "manifest.json").read_text()
    (folder / "manifest.json").write_text(text[: len(text) // 2])


def another_epoch(folder: Path) -> None:
    body = json.loads((folder / "manifest.json").read_text())
    (folder / "manifest.json").write_text(json.dumps(body | {"shops": dict.fromkeys(body["shops"], 0)}))


@pytest.mark.parametrize(
    ("damage", "message"),
    [
        (cut_short, "is damaged"),
        (one_bit, "is damaged"),
        (no_paper, "is missing"),
        (one_more, "does not belong"),
        (no_manifest, "is not a backup"),
        (half_a_manifest, "is damaged"),
        (another_epoch, "is damaged"),
    ],
)
def test_a_damaged_backup_is_refused_and_the_part_is_named(
    backup_folder: Path, tmp_path: Path, damage: Callable[[Path], None], message: str
) -> None:
    damage(backup_folder)
    with pytest.raises(CommandError, match=message):
        call_command("restore", backup_folder, "--yes")


def test_a_backup_of_a_newer_version_is_refused(backup_folder: Path) -> None:
    from dataclasses import replace

    manifest = read_manifest(backup_folder)
    (backup_folder / "manifest.json").unlink()
    write_manifest(backup_folder, replace(manifest, migrations=(*manifest.migrations, ("shop", "9999_later"))))
    with pytest.raises(BackupError, match="shop.9999_later"):
        _checked(backup_folder)


def test_a_database_with_shops_is_not_replaced_without_a_word(backup_folder: Path) -> None:
    with pytest.raises(CommandError, match="--yes"):
        call_command("restore", backup_folder)


@pytest.mark.both
def test_a_backup_of_the_other_database_is_refused(backup_folder: Path) -> None:
    from dataclasses import replace

    manifest = read_manifest(backup_folder)
    (backup_folder / "manifest.json").unlink()
    write_manifest(backup_folder, replace(manifest, engine="another"))
    with pytest.raises(BackupError, match="backup of another"):
        _checked(backup_folder)


@pytest.mark.both
def test_an_sqlite_backup_goes_into_a_new_folder_and_touches_nothing_else(backup_folder: Path, tmp_path: Path) -> None:
    if connection.vendor != "sqlite":
        with pytest.raises(CommandError, match="set DATABASE_URL"):
            call_command("restore", backup_folder, "--into", tmp_path / "new")
        return
    import sqlite3
    from contextlib import closing

    call_command("restore", backup_folder, "--into", tmp_path / "new", verbosity=0)
    with closing(sqlite3.connect(tmp_path / "new" / "kitwright.sqlite3")) as restored:
        epochs = [row[0] for row in restored.execute("SELECT log_epoch FROM shop_shop")]
        ((cuts,),) = restored.execute("SELECT cuts FROM kitting_pulllist").fetchall()
        (((ended, seq),),) = (json.loads(cuts),)
        assert ended + 1 in epochs and seq == 0  # no phone counts as having seen events that are gone
        numbers = [row[0] for row in restored.execute("SELECT number FROM shop_changenumber")]
        assert numbers and min(numbers) > min(epochs)  # every open screen reloads
        assert min(epochs) > 1
        for table in ("shop_personsession", "shop_phonepin"):
            assert restored.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
        assert (
            restored.execute("SELECT verb FROM shop_history WHERE subject = 'shop'").fetchall()
            == [("backup restored",)] * 2
        )
    assert sorted(take.live_epochs().values()) == [1, 1]
    assert len(list((tmp_path / "new" / "media").rglob("*.pdf"))) == 1
    with pytest.raises(CommandError, match="is not empty"):
        call_command("restore", backup_folder, "--into", tmp_path / "new", verbosity=0)


@pytest.mark.both
def test_the_new_epoch_is_past_every_one_a_phone_may_know() -> None:
    shop = "019a0000-0000-7000-8000-000000000000"
    minutes = 329 * 24 * 60 + 15 * 60 + 30  # from 1 January to NOW
    assert new_epoch.next_epochs({shop: 1}, {}, NOW) == {shop: minutes}
    assert new_epoch.next_epochs({shop: 1}, {shop: minutes}, NOW) == {shop: minutes + 1}
    assert new_epoch.next_epochs({shop: 10**7}, {shop: 1}, NOW) == {shop: 10**7 + 1}
    wrong_clock = datetime(2020, 1, 1, tzinfo=UTC)
    assert new_epoch.next_epochs({shop: 4}, {shop: 7}, wrong_clock) == {shop: 8}


@pytest.mark.both
def test_the_statements_fit_the_database_of_an_older_backup(backup_folder: Path) -> None:
    manifest = read_manifest(backup_folder)
    older = replace(manifest, migrations=(("shop", "0017_cautions_and_values"),))
    begun = dict.fromkeys(manifest.shops, 7)
    assert "recorded_at" in "".join(new_epoch.begin(begun, manifest, NOW))
    statements = "".join(new_epoch.begin(begun, older, NOW))
    assert "recorded_at" not in statements and "shop_outbox" not in statements


@pytest.mark.both
def test_what_waited_to_be_sent_waits_for_a_person_after_a_restore(transactional_db: None, tmp_path: Path) -> None:
    cast, texts = make_cast(), {"waiting": "", "begun": "", "failed": "recipient"}
    for state, reason in texts.items():
        facts = {"subject_id": uuid4(), "body": {}, "asked_at": NOW, "due_at": NOW, "reason": reason}
        Outbox.objects.create(shop=cast.shop, kind="test", state=state, **facts)
    manifest = read_manifest(take.take_backup(tmp_path / "backups", NOW))
    now = timezone.now()
    with connection.cursor() as cursor:
        for statement in new_epoch.begin({}, manifest, now):
            cursor.execute(statement)
    states = {(row.state, row.reason, is_unsure(row, now)) for row in Outbox.objects.all()}
    assert states == {("begun", "restored", True), ("failed", "recipient", False)}


@pytest.mark.both
def test_links_by_which_people_come_in_end_with_a_restore(transactional_db: None, tmp_path: Path) -> None:
    cast = make_cast()
    actor = Actor(shop=cast.shop, member=cast.manager)
    now = timezone.now()
    open_link, token = make_password_link(actor=actor, member=cast.parts, now=now)
    used_link, _ = invite(actor=actor, email="new@saltmarsh.example", role="parts", now=now)
    EntryLink.objects.filter(pk=used_link.pk).update(used_at=now)
    assert open_entry(token=token, now=now).email == cast.parts.user.email
    member, day = cast.parts, now.date() + timedelta(days=9)
    facts = {"title": "x", "areas": ["quotes"], "may_write": True, "expires_on": day}
    make_feed(actor=actor, title="Phone", now=now)
    hook, _ = make_webhook(actor=actor, title="Books", url="https://books.example/", events=["quote.sent"], now=now)
    send_trial(actor=actor, webhook=hook, now=now)
    _, secret = make_token(actor=actor, member=member, now=now, **facts)
    assert token_of(secret=secret, now=now) is not None
    manifest = read_manifest(take.take_backup(tmp_path / "backups", NOW))
    with connection.cursor() as cursor:
        for statement in new_epoch.begin({}, manifest, now):
            cursor.execute(statement)
    rows = {row.pk: row for row in EntryLink.objects.all()}
    assert token_of(secret=secret, now=now) is None and CalendarFeed.objects.get().revoked_at == now
    assert Webhook.objects.filter(off_reason="restored", off_at=now, ended_at=None).count() == 1
    assert WebhookMessage.objects.get().state == "cancelled"
    assert rows[open_link.pk].withdrawn_at == now
    assert (rows[used_link.pk].withdrawn_at, rows[used_link.pk].used_at) == (None, now)
    with pytest.raises(RequestError):
        open_entry(token=token, now=now)


def test_two_backups_of_one_second_do_not_meet(backup_folder: Path) -> None:
    with pytest.raises(BackupError, match="is there already"):
        take.take_backup(backup_folder.parent, NOW)
    shutil.rmtree(backup_folder)
    assert take.take_backup(backup_folder.parent, NOW) == backup_folder
