"""Puts a shop's archive into this installation: checked completely first, then all of it in one transaction."""

import csv
import io
import json
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from itertools import islice
from pathlib import Path
from typing import Any

from django.core.exceptions import ValidationError
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import DatabaseError, connection, transaction
from django.db.models import F

from shop.archives import cells, contents
from shop.archives.manifest import BROKEN, SCHEMA, Archive, ArchiveError, check_version, checked
from shop.backups import new_epoch
from shop.backups.manifest import Manifest
from shop.constraints import additions_allowed
from shop.models import Member, Shop, StoredFile, User
from shop.rows import ShopRow

AT_ONCE = 500  # rows
IMPORTED = "archive imported"  # in the shop's history
LONGEST_CELL = 256 * 1024**2
"""Characters: an imported file stands in a cell."""


def import_archive(path: Path, now: datetime) -> tuple[Archive, list[str]]:
    """Adds the archive's shop. Returns its list, and the e-mail addresses of the people who have no password here."""
    try:
        with zipfile.ZipFile(path) as file:
            archive = checked(file)
            check_version(archive)
            _check_schema(file, archive)
            _check_free(archive)
            return archive, _put(file, archive, now)
    except BROKEN:
        raise ArchiveError(f"{path} is damaged, or no ZIP file.") from None


def _check_schema(file: zipfile.ZipFile, archive: Archive) -> None:
    names = [contents.name(model) for model in contents.tables()]
    if missing := [name for name in names if f"tables/{name}.csv" not in archive.parts or name not in archive.counts]:
        raise ArchiveError(f"The table {missing[0]} is missing in the archive.")
    if json.loads(file.read(SCHEMA)) != contents.schema() or set(archive.counts) != set(names):
        raise ArchiveError(f"{SCHEMA} describes other tables than this version has.")


def _check_free(archive: Archive) -> None:
    if Shop.objects.filter(slug=archive.slug).exists() or Shop.objects.filter(pk=archive.shop).exists():
        raise ArchiveError(f"The shop {archive.slug!r} is here already. An archive adds a shop, it replaces none.")


def _put(file: zipfile.ZipFile, archive: Archive, now: datetime) -> list[str]:
    stored: list[str] = []
    try:
        with transaction.atomic():
            new_people = _put_rows(file, archive)
            _put_files(file, archive, stored)
            _begin_epoch(archive, now)
            _check_keys()
    except BaseException as error:
        for path in stored:
            default_storage.delete(path)
        if isinstance(error, DatabaseError):
            raise ArchiveError(f"The database refuses the archive's rows: {error}") from None
        raise
    return new_people


def _put_rows(file: zipfile.ZipFile, archive: Archive) -> list[str]:
    """Fills the tables. A row below a sent version or a kit in use is added here only, so that refusal is suspended."""
    people: dict[Any, Any] = {}
    new_people: list[str] = []
    with additions_allowed():
        for model in contents.tables():
            table_rows = _rows(file, archive, model)
            if model is User:
                for user in table_rows:
                    people[user.pk], is_new = _person(user)
                    new_people += [user.email] * is_new
                continue
            if any(key.related_model is model for key in contents.keys(model)):
                table_rows = contents.parents_first(model, list(table_rows))
            while rows := list(islice(table_rows, AT_ONCE)):
                for row in rows:
                    if isinstance(row, Member):
                        row.user_id = people[row.user_id]
                model._base_manager.bulk_create(rows)
        _check_keys()
    return sorted(new_people)


def _person(user: Any) -> tuple[Any, bool]:
    """The id of this person here, and whether the account is new. Someone with the same e-mail address keeps theirs."""
    here = User.objects.filter(email=user.email).first()
    if here is not None:
        return here.pk, False
    if User.objects.filter(pk=user.pk).exists():
        user = User(email=user.email, name=user.name, is_active=user.is_active)
    user.set_unusable_password()
    user.save(force_insert=True)
    return user.pk, True


def _rows(file: zipfile.ZipFile, archive: Archive, model: contents.Table) -> Iterator[Any]:
    """The rows of a table. Refuses one of another shop, and another number of rows than the archive lists."""
    name, fields = contents.name(model), contents.columns(model)
    count = 0
    with file.open(f"tables/{name}.csv") as stream, long_cells():
        lines = csv.reader(io.TextIOWrapper(stream, encoding="utf-8", newline=""), strict=True)
        try:
            if next(lines, None) != [field.column for field in fields]:
                raise ArchiveError(f"{name}.csv has other columns than {SCHEMA} says.")
            for cell_texts in lines:
                count += 1
                pairs = zip(fields, cell_texts, strict=True)
                row = model(**{field.attname: cells.read(field, text) for field, text in pairs})
                _check_shop(row, archive, name)
                yield row
        except (ValueError, KeyError, csv.Error, ValidationError, OverflowError, RecursionError) as error:
            raise ArchiveError(f"{name}.csv, row {count}: {error}") from None
    if count != archive.counts[name]:
        raise ArchiveError(f"{name}.csv has {count} rows, not {archive.counts[name]}.")


def _check_shop(row: Any, archive: Archive, name: str) -> None:
    belongs_to = row.pk if isinstance(row, Shop) else row.shop_id if isinstance(row, ShopRow) else archive.shop
    if str(belongs_to) != archive.shop or isinstance(row, Shop) and row.slug != archive.slug:
        raise ArchiveError(f"{name}.csv holds a row of another shop.")


@contextmanager
def long_cells() -> Iterator[None]:
    """Reads CSV cells as long as an imported file."""
    before = csv.field_size_limit(LONGEST_CELL)
    try:
        yield
    finally:
        csv.field_size_limit(before)


def _put_files(file: zipfile.ZipFile, archive: Archive, stored: list[str]) -> None:
    """Adds the papers and photographs. Each row of a file has its bytes in the archive, so it shows no other shop's."""
    listed = {}
    for row in StoredFile.objects.filter(shop__pk=archive.shop):
        name = f"files/{row.path}"
        part = archive.parts.get(name)
        if part is None or (part.sha256, part.bytes) != (row.sha256, row.size):
            raise ArchiveError(f"{name} is missing in the archive, or is not the file of its row.")
        listed[name] = row.path
    _check_digests(archive)
    tables = {f"tables/{name}.csv" for name in archive.counts}
    if surplus := sorted(set(archive.parts) - set(listed) - tables - {SCHEMA}):
        raise ArchiveError(f"{surplus[0]} belongs to no row of the archive.")
    for name, path in listed.items():
        body = file.read(name)
        if default_storage.exists(path):
            with default_storage.open(path) as present:
                if present.read() != body:
                    raise ArchiveError(f"{path} is in the storage here with other content.")
            continue
        stored.append(default_storage.save(path, ContentFile(body)))
        if stored[-1] != path:
            raise ArchiveError(f"{path} cannot be stored under its name.")


def _check_digests(archive: Archive) -> None:
    """Refuses a row with the digest of its paper, as a sent version has, whose file has another digest."""
    for model in contents.tables():
        for key, column in getattr(model, "FILE_DIGESTS", ()):
            rows = model._base_manager.filter(shop__pk=archive.shop, **{f"{key}__isnull": False})
            if rows.exclude(**{column: F(f"{key}__sha256")}).exists():
                raise ArchiveError(f"{contents.name(model)}.csv: a row's {column} is not the digest of its file.")


def _begin_epoch(archive: Archive, now: datetime) -> None:
    """Begins a new epoch of the shop's log, as a restored backup does: phones send again what came after the export."""
    epoch = new_epoch.next_epochs({archive.shop: archive.epoch}, {}, now)[archive.shop]
    manifest = Manifest(
        made_at=archive.made_at,
        version=archive.version,
        engine=connection.vendor,
        schema="",
        migrations=archive.migrations,
        counts=archive.counts,
        shops={archive.shop: archive.epoch},
    )
    with connection.cursor() as cursor:
        for statement in new_epoch.begin_shop(archive.shop, epoch, manifest, now, verb=IMPORTED):
            cursor.execute(statement)
        cursor.execute(new_epoch.hold_messages(connection.vendor, now, archive.shop))


def _check_keys() -> None:
    """Raises for a key that leads nowhere, or to another shop's row, before the transaction ends."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            return
        cursor.execute("PRAGMA foreign_key_check")
        if broken := cursor.fetchone():
            raise ArchiveError(f"A key of the archive's table {broken[0]} leads nowhere.")
