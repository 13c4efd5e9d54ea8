"""An archive that is hostile, damaged or of another version is refused, and changes nothing."""

import struct
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from shop.archives import cells, contents, reading
from shop.archives.manifest import ArchiveError
from shop.archives.reading import import_archive
from shop.models import Shop, StoredFile
from tests.archives.conftest import empty_installation
from tests.archives.forged import Parts, edited, rewritten, set_first

pytestmark = pytest.mark.once

NOW = datetime(2026, 11, 28, 6, 0, tzinfo=UTC)


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


def assert_nothing_is_here() -> None:
    assert [model.__name__ for model in contents.tables() if model._base_manager.exists()] == []
    assert stored_files() == []


def stored_files(folder: str = "") -> list[str]:
    folders, files = default_storage.listdir(folder)
    return [*files, *(file for below in folders for file in stored_files(f"{folder}/{below}".strip("/")))]
