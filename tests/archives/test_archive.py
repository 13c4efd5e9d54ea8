"""A shop leaves as one file, and comes into another database whole or not at all."""

import csv
import io
import json
import stat
import zipfile
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.apps import apps
from django.core.files.storage import default_storage
from django.core.management import CommandError, call_command

from kitting.models import PullList
from quotes.models import Line
from shop.archives import cells, contents
from shop.archives.manifest import ArchiveError, part_of
from shop.archives.reading import import_archive
from shop.archives.taking import NO_SECRET, export_shop
from shop.models import Command, EntryLink, Member, Outbox, Shop, StoredFile, User
from tests.archives.conftest import empty_installation
from tests.cast import Cast
from tests.quotes.phone import Phone as CustomersPhone

pytestmark = pytest.mark.once

NOW = datetime(2026, 11, 28, 6, 0, tzinfo=UTC)
STAYS_BEHIND = {
    *("ApiToken", "CalendarFeed", "Webhook", "WebhookMessage"),
    *("Authenticator", "EntryLink", "OpeningCode", "PasswordRequest"),
    *("PersonSession", "PhonePin", "RecoveryCode", "SignInTry"),
}


def page_of(address: str) -> str:
    """The customer's page without the token of its forms, which differs with each visit."""
    phone = CustomersPhone(address)
    return phone.html.replace(phone.field("csrfmiddlewaretoken"), "")


def tables_of(path: Path) -> dict[str, list[dict[str, str]]]:
    with zipfile.ZipFile(path) as file:
        names = [name for name in file.namelist() if name.startswith("tables/")]
        return {name: list(csv.DictReader(io.StringIO(file.read(name).decode(), newline=""))) for name in names}


@pytest.mark.both
def test_another_installation_has_every_row_and_paper_and_the_customers_page(
    file: Path, address: str, tmp_path: Path
) -> None:
    before, html = tables_of(file), page_of(address)
    papers = {row.path: row.sha256 for row in StoredFile.objects.filter(shop__slug="saltmarsh")}
    empty_installation()
    archive, new_people = import_archive(file, NOW)
    assert len(new_people) == 4
    assert not [email for email in new_people if User.objects.get(email=email).has_usable_password()]
    export_shop("saltmarsh", tmp_path / "again.zip", NOW)
    after = tables_of(tmp_path / "again.zip")
    [imported] = [row for row in after["tables/shop_history.csv"] if row["verb"] == "archive imported"]
    after["tables/shop_history.csv"].remove(imported)
    changed = set()
    for name, rows in before.items():
        assert len(rows) == len(after[name]) == archive.counts[name.split("/")[1][:-4]]
        for row, row_after in zip(rows, after[name], strict=True):
            changed |= {(name, column) for column in row if row[column] != row_after[column]}
    assert {(name, column) for name, column in changed if name != "tables/shop_outbox.csv"} == {
        ("tables/shop_shop.csv", "log_epoch"),
        ("tables/shop_changenumber.csv", "number"),
        ("tables/kitting_pulllist.csv", "cuts"),
    }
    assert "Maren Oldacre" in html and page_of(address) == html
    with zipfile.ZipFile(tmp_path / "again.zip") as again:
        assert papers and {path: part_of(again, f"files/{path}").sha256 for path in papers} == papers


@pytest.mark.both
def test_every_table_of_ours_is_in_an_archive_after_what_its_keys_point_to() -> None:
    tables = contents.tables()
    models = {model for app in ("shop", "kitting", "quotes") for model in apps.get_app_config(app).get_models()}
    assert {model.__name__ for model in models - set(tables)} == STAYS_BEHIND and set(tables) <= models
    for model in tables:
        targets = {key.related_model for key in contents.keys(model)} - {model}
        assert all(tables.index(target) < tables.index(model) for target in targets), model


def test_no_password_and_no_secret_leaves(file: Path) -> None:
    tables = tables_of(file)
    assert set(tables["tables/shop_user.csv"][0]) == {"id", "email", "name", "is_active"}
    assert EntryLink.objects.count() == 2 and {"tables/shop_entrylink.csv", "tables/shop_apitoken.csv"}.isdisjoint(
        tables
    )
    assert not [
        name for name in tables if "session" in name or "signin" in name or "openingcode" in name or "request" in name
    ]
    assert [json.loads(row["body"]) for row in tables["tables/shop_outbox.csv"]][-1] == {"sealed": NO_SECRET}
    commands = tables["tables/shop_command.csv"]
    assert Command.objects.exclude(result=None).exists() and {row["result"] for row in commands} == {cells.NULL}
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


@pytest.mark.both
def test_only_the_shops_own_rows_leave(cast: Cast, file: Path) -> None:
    stranger = cast.stranger.user.email
    with zipfile.ZipFile(file) as archive:
        for name in archive.namelist():
            assert stranger.encode() not in archive.read(name)
    assert {row["shop_id"] for row in tables_of(file)["tables/shop_customer.csv"]} == {str(cast.shop.pk)}


def test_waiting_messages_are_left_to_a_person_and_phones_send_again(exported: Path) -> None:
    import_archive(exported, NOW)
    message, shop = Outbox.objects.get(kind="link", body={"sealed": NO_SECRET}), Shop.objects.get()
    assert (message.state, message.reason) == ("begun", "restored")
    assert shop.log_epoch > 1 and PullList.objects.exclude(last_seq=0).get().cuts == [[shop.log_epoch - 1, 1]]


def test_a_sent_line_is_refused_again_after_the_import(exported: Path) -> None:
    import_archive(exported, NOW)
    line = Line.objects.filter(revision__sent_at__isnull=False).first()
    assert line is not None
    with pytest.raises(Exception, match="line_added_only_to_a_draft"):
        Line.objects.create(shop=line.shop, revision=line.revision, position=99, kind="text", title="Late")


def test_a_person_who_is_here_already_keeps_the_account(cast: Cast, file: Path) -> None:
    empty_installation()
    other = Shop.objects.create(slug="here", name="Here", currency="EUR", zone="UTC")
    person = User.objects.create(email="advisor@saltmarsh.example", name="Kept", password="as it was")
    Member.objects.create(shop=other, user=person, role="manager")
    _, new_people = import_archive(file, NOW)
    person.refresh_from_db()
    assert person.email not in new_people and (person.password, person.name) == ("as it was", "Kept")
    assert Member.objects.get(shop__slug="saltmarsh", user=person).role == "advisor"


def test_a_shop_that_is_here_is_never_replaced(file: Path) -> None:
    with pytest.raises(ArchiveError, match="here already"):
        import_archive(file, NOW)


def test_an_export_that_fails_leaves_nothing(address: str, tmp_path: Path) -> None:
    default_storage.delete(StoredFile.objects.filter(shop__slug="saltmarsh").first().path)  # type: ignore[union-attr]
    with pytest.raises(CommandError, match="is missing in the storage"):
        call_command("shop", export=tmp_path / "shop.zip", shop="saltmarsh")
    assert list(tmp_path.iterdir()) == []


def test_the_commands_say_what_moved_and_who_needs_a_password(
    address: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call_command("shop", export=tmp_path / "shop.zip", shop="saltmarsh")
    assert "exported the shop saltmarsh: " in capsys.readouterr().out
    empty_installation()
    call_command("shop", import_archive=tmp_path / "shop.zip")
    assert "Without a password yet" in (output := capsys.readouterr().out) and "advisor@saltmarsh.example" in output
