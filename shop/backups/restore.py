"""Restores a backup: checked completely, prepared beside the present data, then swapped in one step."""

from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import DatabaseError, connection
from django.db.migrations.loader import MigrationLoader

from shop.backups import new_epoch, postgres_part, sqlite_part
from shop.backups.manifest import BackupError, Manifest, backup_file, read_manifest, sync_to_disk, write_durably
from shop.backups.take import MEDIA, live_epochs
from shop.sqlite import database_path, private_folder

NOT_EMPTY = "There are shops in this database already. Restore with --yes to replace them, or with --into elsewhere."


def restore_backup(folder: Path, now: datetime, *, overwrite: bool) -> Manifest:
    """Replaces this installation's database with the backup's and adds its media."""
    manifest = _checked(folder)
    live = _live()
    if live is not None and not overwrite:
        raise BackupError(NOT_EMPTY)
    statements = _statements(manifest, live or {}, now)
    if connection.vendor == "postgresql":
        _add_media(folder)
        part = folder / postgres_part.NAME
        postgres_part.load_database(part, manifest.schema, manifest.counts, statements)
        return manifest
    target = database_path()
    if target is None:
        raise BackupError("The database is in memory: a backup cannot be put there.")
    connection.close()
    with sqlite_part.alone(target):
        ready = sqlite_part.prepare(folder / sqlite_part.NAME, target, statements)
        _add_media(folder)
        aside = target.with_name(f"{target.name}.before-{now.astimezone(UTC):%Y%m%dT%H%M%S%fZ}")
        sqlite_part.swap(ready, target, aside)
    return manifest


def restore_into(folder: Path, into: Path, now: datetime) -> Manifest:
    """Restores an SQLite backup into a new folder, without touching this installation."""
    manifest = _checked(folder)
    if manifest.engine != "sqlite":
        raise BackupError("--into is for SQLite. For PostgreSQL, set DATABASE_URL to an empty database and VAR_DIR.")
    if into.exists() and any(into.iterdir()):
        raise BackupError(f"{into} is not empty.")
    private_folder(into)
    target = into / "kitwright.sqlite3"
    ready = sqlite_part.prepare(folder / sqlite_part.NAME, target, _statements(manifest, _live() or {}, now))
    for path in sorted((folder / MEDIA).rglob("*")):
        copy = into / path.relative_to(folder)
        private_folder(copy.parent)
        if path.is_file():
            write_durably(copy, path.read_bytes())
    ready.rename(target)
    sync_to_disk(into)
    return manifest


def _checked(folder: Path) -> Manifest:
    """The manifest of a backup that fits this installation."""
    manifest = read_manifest(folder)
    if manifest.engine != connection.vendor:
        raise BackupError(f"This is a backup of {manifest.engine}, and the database here is {connection.vendor}.")
    known_migrations = set(MigrationLoader(None).disk_migrations)
    newer = [f"{app}.{name}" for app, name in manifest.migrations if (app, name) not in known_migrations]
    if newer:
        raise BackupError(f"The backup is from a newer version, {manifest.version} ({newer[0]}). Update first.")
    if manifest.engine == "sqlite" and sqlite_part.counts(folder / sqlite_part.NAME) != dict(manifest.counts):
        raise BackupError(f"{folder}/{sqlite_part.NAME} does not hold the rows that were backed up.")
    return manifest


def _live() -> dict[str, int] | None:
    """{shop: epoch} of the database in use; None if it has no shop, {} if it cannot be read."""
    try:
        if "shop_shop" not in connection.introspection.table_names():
            return None
        return live_epochs() or None
    except DatabaseError:
        return {}


def _statements(manifest: Manifest, live: dict[str, int], now: datetime) -> Iterable[str]:
    epochs = new_epoch.next_epochs(manifest.shops, live, now)
    return list(new_epoch.begin(epochs, manifest, now))


def _add_media(folder: Path) -> None:
    """Adds the backup's files to the storage. A file of the same name with other content is replaced."""
    for path in sorted((folder / MEDIA).rglob("*")):
        if not path.is_file():
            continue
        name = path.relative_to(folder / MEDIA).as_posix()
        if default_storage.exists(name):
            if _same(name, path):
                continue
            default_storage.delete(name)
        default_storage.save(name, ContentFile(path.read_bytes()))


def _same(name: str, path: Path) -> bool:
    try:
        return backup_file(Path(default_storage.path(name))) == backup_file(path)
    except NotImplementedError:  # a storage without files
        with default_storage.open(name) as file:
            return bytes(file.read()) == path.read_bytes()
