"""Writes a shop's archive: everything under a temporary name first, then one rename."""

import csv
import hashlib
import io
import json
import os
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any

from django.core.files.storage import default_storage
from django.db import connection, transaction

from shop.archives import cells, contents
from shop.archives.manifest import BLOCK, NAME, SCHEMA, Archive, ArchiveError, applied_migrations, as_json
from shop.backups.manifest import BackupFile, sync_to_disk
from shop.backups.take import version
from shop.models import Command, Outbox, Shop, StoredFile

NO_SECRET = "00" * 32  # what a message holds in place of the sealed secret: as long, and it opens nothing


def export_shop(slug: str, target: Path, now: datetime) -> Archive:
    """Writes the archive, of one moment of the database. The name exists only once all of it is on the disk."""
    if target.exists():
        raise ArchiveError(f"{target} is there already.")
    partial = target.with_name(f".{target.name}.{os.getpid()}.partial")
    try:
        with os.fdopen(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as out, _moment():
            shop = Shop.objects.filter(slug=slug).first()
            if shop is None:
                raise ArchiveError(f"--shop: there is no shop {slug!r}.")
            with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
                archive = _filled(file, shop, now)
        sync_to_disk(partial)
        os.rename(partial, target)
    except BaseException:
        partial.unlink(missing_ok=True)
        raise
    sync_to_disk(target.absolute().parent)
    return archive


@contextmanager
def _moment() -> Iterator[None]:
    """Every query inside reads the same moment, while others write."""
    if connection.vendor == "postgresql":
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
            yield
        return
    with connection.cursor() as cursor:
        cursor.execute("BEGIN")  # deferred, so that it keeps no writer waiting, as `atomic` would
        try:
            yield
        finally:
            cursor.execute("ROLLBACK")


def _filled(file: zipfile.ZipFile, shop: Shop, now: datetime) -> Archive:
    counts: dict[str, int] = {}
    parts: dict[str, BackupFile] = {}
    for model in contents.tables():
        name = contents.name(model)
        with _part(file, f"tables/{name}.csv", parts) as out:
            counts[name] = _write_table(out, model, shop, now)
    for row in contents.rows(StoredFile, shop):
        _copy(file, row, parts)
    with _part(file, SCHEMA, parts) as out:
        out.write(json.dumps(contents.schema(), indent=1).encode())
    archive = Archive(
        made_at=now.astimezone(UTC).isoformat(),
        version=version(),
        shop=str(shop.pk),
        slug=shop.slug,
        epoch=shop.log_epoch,
        migrations=applied_migrations(),
        counts=counts,
        parts=parts,
    )
    file.writestr(NAME, as_json(archive))
    return archive


def _write_table(out: IO[bytes], model: contents.Table, shop: Shop, now: datetime) -> int:
    text = io.TextIOWrapper(out, encoding="utf-8", newline="", write_through=True)
    writer = csv.writer(text, quoting=csv.QUOTE_ALL, lineterminator="\n")
    fields, count = contents.columns(model), 0
    writer.writerow([field.column for field in fields])
    for row in contents.rows(model, shop).iterator(chunk_size=500):
        _without_secrets(row, now)
        writer.writerow([cells.written(field, field.value_from_object(row)) for field in fields])
        count += 1
    text.detach()
    return count


def _without_secrets(row: Any, now: datetime) -> None:
    """Blanks what only this installation may hold, as `purge` drops an answer: it may have a new link's secret."""
    if isinstance(row, Command):
        row.result, row.dropped_at = None, row.dropped_at or now
    elif isinstance(row, Outbox) and "sealed" in row.body:
        row.body = row.body | {"sealed": NO_SECRET}


def _copy(file: zipfile.ZipFile, row: StoredFile, parts: dict[str, BackupFile]) -> None:
    name = f"files/{row.path}"
    if name not in parts:
        try:
            with default_storage.open(row.path) as stored, _part(file, name, parts) as out:
                while block := stored.read(BLOCK):
                    out.write(block)
        except FileNotFoundError:
            raise ArchiveError(f"{row.path} is missing in the storage. Restore it from a backup first.") from None
    if parts[name].sha256 != row.sha256:
        raise ArchiveError(f"{row.path} is damaged in the storage. Restore it from a backup first.")


@contextmanager
def _part(file: zipfile.ZipFile, name: str, parts: dict[str, BackupFile]) -> Iterator[Any]:
    """A stream into the archive, whose size and digest are noted in `parts` at its end."""
    with file.open(name, "w", force_zip64=True) as stream:
        counted = _Counted(stream)
        yield counted
    parts[name] = BackupFile(counted.size, counted.digest.hexdigest())


class _Counted(io.RawIOBase):
    """A stream that counts and digests what passes."""

    def __init__(self, stream: IO[bytes]) -> None:
        self.stream, self.size, self.digest = stream, 0, hashlib.sha256()

    def writable(self) -> bool:
        return True

    def write(self, body: Any) -> int:
        self.size += len(body)
        self.digest.update(body)
        return self.stream.write(body)
