"""A shop leaves as one file, and comes into another database whole or not at all."""

import csv
import io
import json
import stat
import struct
import zipfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.conf import DEFAULT_STORAGE_ALIAS
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage, storages
from django.core.management import CommandError, call_command
from django.utils.functional import empty

from kitting.models import PullLine, PullList
from quotes.models import Line
from shop.access import Actor
from shop.archives import cells, contents, reading
from shop.archives.manifest import NAME, ArchiveError, as_json, checked, part_of
from shop.archives.reading import import_archive
from shop.archives.taking import NO_SECRET, export_shop
from shop.models import Command, EntryLink, Member, Outbox, Shop, StoredFile, User
from shop.services.entry_links import invite, make_password_link
from tests.cast import Cast, make_cast
from tests.factories import CustomerFactory, PartFactory
from tests.kitting.stage import Phone, send
from tests.quotes.phone import Phone as CustomersPhone
from tests.quotes.stage import make_stage

NOW = datetime(2026, 11, 28, 6, 0, tzinfo=UTC)
STAYS_BEHIND = {
    *("Authenticator", "EntryLink", "OpeningCode", "PasswordRequest"),
    *("PersonSession", "PhonePin", "RecoveryCode", "SignInTry"),
}
KEPT: list[bytes] = []  # one archive, for all tests that read it into an empty installation
Parts = dict[str, bytes]


@pytest.fixture
def cast(transactional_db: None) -> Cast:
    return make_cast()


@pytest.fixture
def address(cast: Cast) -> str:
    return make_address(cast)


def make_address(cast: Cast) -> str:
    """The address of an accepted quote. The shop has a sent one too, a count, a message waiting, odd texts."""
    stage = make_stage(cast)
    stage.sent()
    url = str(stage.accepted()["link"]["url"])
    pull_list = PullList.objects.get(shop=cast.shop)
    line = PullLine.objects.filter(pull_list=pull_list).order_by("position")[0]
    send(cast.signed_in("parts"), pull_list, Phone(pull_list).event(line, total=3))
    Outbox.objects.create(
        shop=cast.shop, kind="link", subject_id=line.pk, body={"sealed": "ab" * 32}, asked_at=NOW, due_at=NOW
    )
    manager = Actor(shop=cast.shop, member=cast.manager)
    invite(actor=manager, email="new@saltmarsh.example", role="parts", now=NOW)
    make_password_link(actor=manager, member=cast.parts, now=NOW)
    older = PartFactory(shop=cast.shop, number="OLD")  # its id is lower than that of the part that follows it
    older.superseded_by = PartFactory(shop=cast.shop, number="NEW")
    older.save()
    CustomerFactory(shop=cast.shop, name='\\N "and", co;\u2003ü', address="=1+1\\N")
    return url


@pytest.fixture
def file(address: str, tmp_path: Path) -> Path:
    export_shop("saltmarsh", tmp_path / "shop.zip", NOW)
    return tmp_path / "shop.zip"


@pytest.fixture
def exported(transactional_db: None, tmp_path: Path) -> Path:
    """The same file beside an empty installation."""
    if not KEPT:
        make_address(make_cast())
        export_shop("saltmarsh", tmp_path / "kept.zip", NOW)
        KEPT.append((tmp_path / "kept.zip").read_bytes())
    (tmp_path / "shop.zip").write_bytes(KEPT[0])
    empty_installation()
    return tmp_path / "shop.zip"


def empty_installation() -> None:
    call_command("flush", interactive=False, verbosity=0)
    storages._storages.pop(DEFAULT_STORAGE_ALIAS, None)
    default_storage._wrapped = empty


def page_of(address: str) -> str:
    """The customer's page without the token of its forms, which differs with each visit."""
    phone = CustomersPhone(address)
    return phone.html.replace(phone.field("csrfmiddlewaretoken"), "")


def tables_of(path: Path) -> dict[str, list[dict[str, str]]]:
    with zipfile.ZipFile(path) as file:
        names = [name for name in file.namelist() if name.startswith("tables/")]
        return {name: list(csv.DictReader(io.StringIO(file.read(name).decode(), newline=""))) for name in names}


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
    assert EntryLink.objects.count() == 2 and "tables/shop_entrylink.csv" not in tables
    assert not [
        name for name in tables if "session" in name or "signin" in name or "openingcode" in name or "request" in name
    ]
    assert [json.loads(row["body"]) for row in tables["tables/shop_outbox.csv"]][-1] == {"sealed": NO_SECRET}
    commands = tables["tables/shop_command.csv"]
    assert Command.objects.exclude(result=None).exists() and {row["result"] for row in commands} == {cells.NULL}
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


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


# Hostile archives. Each edits the parts or the list, which is then signed as a good one is.


def edited(parts: Parts, table: str, edit: Callable[[list[dict[str, str]]], None]) -> None:
    name = f"tables/{table}.csv"
    rows = list(csv.DictReader(io.StringIO(parts[name].decode(), newline="")))
    columns = list(rows[0])
    edit(rows)
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, columns, quoting=csv.QUOTE_ALL, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    parts[name] = out.getvalue().encode()


def set_first(table: str, column: str, text: str) -> Callable[[Parts], None]:
    return lambda parts: edited(parts, table, lambda rows: rows[0].__setitem__(column, text))


def escapes(parts: Parts) -> None:
    parts["files/../../escaped"] = b"x"


def bomb(parts: Parts) -> None:
    parts["files/bomb"] = bytes(8 * 1024**2)


def no_table(parts: Parts) -> None:
    del parts["tables/quotes_decision.csv"]


def no_paper(parts: Parts) -> None:
    del parts[next(name for name in parts if name.startswith("files/"))]


def other_paper(parts: Parts) -> None:
    parts[next(name for name in parts if name.startswith("files/"))] = b"another paper"


def one_file_more(parts: Parts) -> None:
    parts["files/papers/more.pdf"] = b"x"


def one_row_less(parts: Parts) -> None:
    edited(parts, "quotes_link", lambda rows: rows.pop())


def leads_nowhere(parts: Parts) -> None:
    set_first("quotes_link", "quote_id", "01890000-0000-7000-8000-000000000000")(parts)


def twice_the_same_link(parts: Parts) -> None:
    edited(parts, "quotes_link", lambda rows: rows[0].__setitem__("token_hash", rows[1]["token_hash"]))


def a_path_elsewhere(parts: Parts) -> None:
    set_first("shop_storedfile", "path", "../secret-key")(parts)


def another_digest(parts: Parts) -> None:
    def edit(rows: list[dict[str, str]]) -> None:
        next(row for row in rows if row["paper_id"] != cells.NULL)["pdf_sha256"] = "ab" * 32

    edited(parts, "quotes_revision", edit)


OTHERS = "01890000-0000-7000-8000-00000000beef"


@pytest.mark.parametrize(
    ("damage", "message"),
    [
        (escapes, "is not a name"),
        (bomb, "unpacks to more"),
        (no_table, "quotes_decision is missing"),
        (no_paper, "is missing in the archive, or is not"),
        (other_paper, "is missing in the archive, or is not"),
        (one_file_more, "belongs to no row"),
        (one_row_less, "rows, not"),
        (leads_nowhere, "leads nowhere|refuses"),
        (twice_the_same_link, "refuses"),
        (a_path_elsewhere, "is missing in the archive, or is not"),
        (another_digest, "pdf_sha256 is not the digest"),
        (set_first("shop_customer", "shop_id", OTHERS), "a row of another shop"),
        (set_first("shop_shop", "id", OTHERS), "a row of another shop"),
        (set_first("quotes_revision", "net", "1.2345678"), "row 1"),
        (set_first("shop_customer", "name", "x" * 100_000), "too long"),
        (set_first("shop_customer", "name", "a\0b"), "row 1|NUL"),
        (set_first("shop_history", "recorded_at", "2026-11-28T06:00:00"), "without a zone"),
        (set_first("shop_member", "role", "owner"), "refuses"),
        (set_first("shop_ruleset", "rules", "{"), "row 1"),
    ],
)
def test_a_hostile_archive_is_refused_and_changes_nothing(
    exported: Path, tmp_path: Path, damage: Callable[[Parts], None], message: str
) -> None:
    forged = rewritten(exported, tmp_path / "forged.zip", damage)
    with pytest.raises(ArchiveError, match=message):
        import_archive(forged, NOW)
    assert_nothing_is_here()


def test_the_files_of_an_import_that_fails_at_its_end_go_again(exported: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> None:
        assert stored_files()
        raise ArchiveError("no power")

    monkeypatch.setattr(reading, "_begin_epoch", stop)
    with pytest.raises(ArchiveError, match="no power"):
        import_archive(exported, NOW)
    assert_nothing_is_here()


def rewritten(file: Path, target: Path, damage: Callable[[Parts], None], **changes: Any) -> Path:
    """The archive with other parts or another list, whose sizes and digests are right."""
    with zipfile.ZipFile(file) as source:
        archive = checked(source)
        parts = {name: source.read(name) for name in archive.parts}
    damage(parts)
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as out:
        for name, body in parts.items():
            out.writestr(name, body)
    with zipfile.ZipFile(target, "a", zipfile.ZIP_DEFLATED) as out:
        listed = {name: part_of(out, name) for name in parts}
        out.writestr(NAME, as_json(replace(archive, parts=listed, **changes)))
    return target


def assert_nothing_is_here() -> None:
    assert [model.__name__ for model in contents.tables() if model._base_manager.exists()] == []
    assert stored_files() == []


def stored_files(folder: str = "") -> list[str]:
    folders, files = default_storage.listdir(folder)
    return [*files, *(file for below in folders for file in stored_files(f"{folder}/{below}".strip("/")))]


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"format": 2}, "format 2"),
        ({"migrations": (("shop", "9999_later"),)}, "newer version"),
        ({"migrations": ()}, "another version"),
        ({"slug": "other"}, "a row of another shop"),
    ],
)
def test_an_archive_of_another_version_is_refused(
    exported: Path, tmp_path: Path, changes: dict[str, Any], message: str
) -> None:
    forged = rewritten(exported, tmp_path / "forged.zip", lambda parts: None, **changes)
    with pytest.raises(ArchiveError, match=message):
        import_archive(forged, NOW)
    assert_nothing_is_here()


def one_bit(body: bytes, at: int) -> bytes:
    return body[:at] + bytes([body[at] ^ 1]) + body[at + 1 :]


def inside_a_part(file: Path, place: float) -> int:
    """The position of a byte of a part's content. Between the parts are headers that nobody reads."""
    with zipfile.ZipFile(file) as source:
        infos = source.infolist()
    info, body = infos[int(len(infos) * place)], file.read_bytes()
    name, extra = struct.unpack_from("<HH", body, info.header_offset + 26)
    return int(info.header_offset + 30 + name + extra + info.compress_size // 2)


@pytest.mark.parametrize("place", [0.0, 0.3, 0.6])
def test_a_damaged_file_is_refused(exported: Path, tmp_path: Path, place: float) -> None:
    body = exported.read_bytes()
    (tmp_path / "damaged.zip").write_bytes(one_bit(body, inside_a_part(exported, place)))
    (tmp_path / "short.zip").write_bytes(body[: int(len(body) * place)])
    for name in ("damaged.zip", "short.zip"):
        with pytest.raises(ArchiveError):
            import_archive(tmp_path / name, NOW)
    assert_nothing_is_here()


def test_a_part_that_was_changed_after_the_list_is_named(exported: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(exported) as source, zipfile.ZipFile(tmp_path / "changed.zip", "w") as out:
        for name in source.namelist():
            body = source.read(name)
            out.writestr(name, body.replace(b"advisor@", b"stranger@") if name.endswith("user.csv") else body)
    with pytest.raises(ArchiveError, match=r"tables/shop_user.csv is damaged"):
        import_archive(tmp_path / "changed.zip", NOW)


def test_another_shops_file_in_the_storage_is_never_replaced(file: Path) -> None:
    path = StoredFile.objects.filter(shop__slug="saltmarsh").first().path  # type: ignore[union-attr]
    empty_installation()
    default_storage.save(path, ContentFile(b"of another shop"))
    with pytest.raises(ArchiveError, match="with other content"):
        import_archive(file, NOW)
    with default_storage.open(path) as stored:
        assert stored.read() == b"of another shop"
    assert not Shop.objects.exists()
