"""`backup DIR --keep N` deletes whole older backups in DIR, and nothing else."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from shop.backups import take, thinning
from shop.backups.manifest import BackupError

pytestmark = pytest.mark.once

NOW = datetime(2026, 11, 26, 2, 30, tzinfo=UTC)


@pytest.fixture
def folder(transactional_db: None, tmp_path: Path) -> Path:
    """Five nights."""
    for night in range(5):
        take.take_backup(tmp_path / "backups", NOW + timedelta(days=night))
    return tmp_path / "backups"


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def night(day: int) -> str:
    return f"kitwright-202611{day}T023000Z"


def test_the_newest_stay(folder: Path) -> None:
    assert [path.name for path in thinning.thin_out(folder, 2).deleted] == [night(28), night(27), night(26)]
    assert names(folder) == [night(29), night(30)]
    assert thinning.thin_out(folder, 2) == thinning.Thinned((), ())


def test_everything_else_stays(folder: Path, tmp_path: Path) -> None:
    others = ["notes.txt", "kitwright-20201126T023000Z-kept", ".kitwright-20201126T023000Z.7.partial", "kitwright-2020"]
    for name in others:
        (folder / name).mkdir()
    (folder / night(20)).write_text("a file with the name of a backup")
    (tmp_path / "elsewhere").mkdir()
    whole = take.take_backup(tmp_path / "elsewhere", NOW)
    (folder / night(21)).symlink_to(whole)
    thinning.thin_out(folder, 1)
    assert names(folder) == sorted([*others, night(20), night(21), night(30)]) and list(whole.iterdir())


def test_a_damaged_backup_is_left_to_a_person(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    next((folder / night(27)).glob("database.*")).write_bytes(b"damaged")
    (folder / night(28) / "manifest.json").unlink()
    monkeypatch.setattr(timezone, "now", lambda: NOW + timedelta(days=5))
    call_command("backup", folder, keep=1)
    assert names(folder) == [night(27), night(28), "kitwright-20261201T023000Z"]
    output = capsys.readouterr()
    assert "deleted 3 older, 1 stay" in output.out and output.err.count("is damaged, so it was not deleted") == 2


def test_the_newest_is_never_deleted(folder: Path) -> None:
    with pytest.raises(BackupError, match="at least 1"):
        thinning.thin_out(folder, 0)
    before = names(folder)
    with pytest.raises(CommandError, match="at least 1"):
        call_command("backup", folder, keep=0)
    assert names(folder) == before


def test_nothing_is_deleted_when_the_backup_fails(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*args: object) -> None:
        raise OSError(28, "No space left on device", "manifest.json")

    monkeypatch.setattr(take, "write_manifest", full)
    with pytest.raises(CommandError, match="No space left"):
        call_command("backup", folder, keep=1)
    assert len(names(folder)) == 5
