"""Makes a backup: everything under a temporary name first, then one rename."""

import os
import shutil
import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.core.files.storage import default_storage
from django.db import connection
from django.db.migrations.recorder import MigrationRecorder

from shop.backups import postgres_part, sqlite_part
from shop.backups.manifest import BackupError, Manifest, backup_files, sync_to_disk, write_durably, write_manifest
from shop.models import Shop
from shop.sqlite import database_path

MEDIA = "media"


def take_backup(folder: Path, now: datetime) -> Path:
    """Makes a dated folder inside `folder` and returns its path. The name exists only once all of it is on the disk."""
    if not folder.exists():
        folder.mkdir(mode=0o700, parents=True)
    name = f"kitwright-{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    final, partial = folder / name, folder / f".{name}.{os.getpid()}.partial"
    if final.exists():
        raise BackupError(f"{final} is there already.")
    partial.mkdir(mode=0o700)
    try:
        _fill(partial, now)
        os.rename(partial, final)
    except BaseException:
        shutil.rmtree(partial, ignore_errors=True)
        raise
    sync_to_disk(folder)
    return final


def _fill(folder: Path, now: datetime) -> None:
    """Copies the database before the media: a document is stored before its row, so every row has its document."""
    counts, shops, schema = _database(folder)
    for name in stored_files():
        path = folder / MEDIA / name
        for parent in reversed(path.relative_to(folder).parents):
            (folder / parent).mkdir(mode=0o700, exist_ok=True)
        with default_storage.open(name) as file:
            write_durably(path, file.read())
    migrations = MigrationRecorder.Migration.objects.order_by("app", "name").values_list("app", "name")
    manifest = Manifest(
        made_at=now.astimezone(UTC).isoformat(),
        version=version(),
        engine=connection.vendor,
        schema=schema,
        migrations=tuple(migrations),
        counts=counts,
        shops=shops,
        parts=backup_files(folder),
    )
    write_manifest(folder, manifest)
    for path in (*(path for path in folder.rglob("*") if path.is_dir()), folder):
        sync_to_disk(path)


def _database(folder: Path) -> tuple[dict[str, int], dict[str, int], str]:
    """Copies the database into the folder. Returns ({table: rows}, {shop: epoch}, PostgreSQL's schema)."""
    if connection.vendor == "postgresql":
        return postgres_part.dump_database(folder / postgres_part.NAME)
    source, copy = database_path(), folder / sqlite_part.NAME
    if source is None:
        raise BackupError("The database is in memory: there is nothing to back up.")
    sqlite_part.copy_database(source.absolute(), copy)
    return sqlite_part.counts(copy), sqlite_part.epochs(copy), ""


def stored_files(below: str = "") -> Iterator[str]:
    """The names of all files in the storage."""
    if not default_storage.exists(below):
        return
    folders, files = default_storage.listdir(below)
    for name in sorted(files):
        yield os.path.join(below, name)
    for name in sorted(folders):
        yield from stored_files(os.path.join(below, name))


def version() -> str:
    return str(tomllib.loads((Path(settings.BASE_DIR) / "pyproject.toml").read_text("utf-8"))["project"]["version"])


def live_epochs() -> dict[str, int]:
    """{shop: its epoch} of the database in use."""
    return {str(id): epoch for id, epoch in Shop.objects.values_list("id", "log_epoch")}
