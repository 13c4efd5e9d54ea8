"""The list in an archive of what it holds, and the check of a ZIP file against it before anything is read."""

import hashlib
import json
import re
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

from shop.backups.manifest import BackupFile

NAME, SCHEMA = "archive.json", "schema.json"
FORMAT = 1
LARGEST = 32 * 1024**3  # bytes of an unpacked archive
LARGEST_LIST = 64 * 1024**2
SQUEEZED = 400  # times that a part may be larger than its packed bytes, from a megabyte on
BLOCK = 1024**2
OURS = ("kitting", "quotes", "shop")
SAFE = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9_.-]*(/[A-Za-z0-9_-][A-Za-z0-9_.-]*)*")
BROKEN = (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError)


class ArchiveError(Exception):
    """Raised if a shop cannot be exported or imported. The message is for the person at the command line."""


@dataclass(frozen=True, slots=True)
class Archive:
    """The content of an archive."""

    made_at: str  # RFC 3339, UTC
    version: str  # of Kitwright
    shop: str  # its id
    slug: str
    epoch: int  # of its log
    migrations: tuple[tuple[str, str], ...]  # of our apps, applied where the archive was made
    counts: Mapping[str, int]  # {table: rows}
    parts: Mapping[str, BackupFile]  # {name inside the ZIP file: size and digest}
    format: int = FORMAT


def as_json(archive: Archive) -> str:
    body = asdict(archive)
    return json.dumps({**body, "digest": _digest(body)}, indent=1, sort_keys=True)


def checked(file: zipfile.ZipFile) -> Archive:
    """The list of an archive whose parts are all there, whole, and no others. Reads each part once."""
    infos = {info.filename: info for info in file.infolist()}
    if len(infos) != len(file.infolist()):
        raise ArchiveError("A name stands in the archive twice. Export the shop again.")
    if NAME not in infos:
        raise ArchiveError(f"This is not the archive of a shop: it has no {NAME}.")
    for name in infos:
        if not SAFE.fullmatch(name):
            raise ArchiveError(f"{name!r} is not a name that an archive of ours has.")
    if sum(info.file_size for info in infos.values()) > LARGEST or infos[NAME].file_size > LARGEST_LIST:
        raise ArchiveError("The archive is larger than any that Kitwright writes.")
    for name, info in infos.items():
        if info.file_size > max(BLOCK, SQUEEZED * info.compress_size):
            raise ArchiveError(f"{name} unpacks to more than an archive of ours does.")
    archive = _listed(file.read(NAME))
    if surplus := sorted(set(infos) - {NAME, *archive.parts}):
        raise ArchiveError(f"{surplus[0]} does not belong to this archive.")
    for name, part in archive.parts.items():
        if name not in infos:
            raise ArchiveError(f"{name} is missing in the archive. Export the shop again.")
        if part_of(file, name) != part:
            raise ArchiveError(f"{name} is damaged: it is not what was exported. Export the shop again.")
    return archive


def part_of(file: zipfile.ZipFile, name: str) -> BackupFile:
    digest, size = hashlib.sha256(), 0
    with file.open(name) as stream:
        while block := stream.read(BLOCK):
            digest.update(block)
            size += len(block)
    return BackupFile(size, digest.hexdigest())


def _listed(text: bytes) -> Archive:
    damaged = ArchiveError(f"{NAME} is damaged. Export the shop again.")
    try:
        body: dict[str, Any] = json.loads(text)
        if body.get("format") != FORMAT:
            raise ArchiveError(f"The archive is of format {body.get('format')}, which this version does not read.")
        if body.pop("digest", None) != _digest(body):
            raise damaged
        parts = {name: BackupFile(**part) for name, part in body.pop("parts").items()}
        migrations = tuple((app, name) for app, name in body.pop("migrations"))
        return Archive(**body, parts=parts, migrations=migrations)
    except (ValueError, TypeError, AttributeError, KeyError):
        raise damaged from None


def check_version(archive: Archive) -> None:
    """Refuses an archive of another state of the tables than this installation's."""
    readable, applied = set(MigrationLoader(None).disk_migrations), set(applied_migrations())
    if newer := sorted(set(archive.migrations) - readable):
        app, name = newer[0]
        raise ArchiveError(f"The archive is from a newer version, {archive.version} ({app}.{name}). Update first.")
    if set(archive.migrations) != applied:
        raise ArchiveError(
            f"The archive is from another version, {archive.version}. Update the installation that it comes from, and "
            "export the shop again. If it is gone, restore its last backup, which brings it up to date, and export "
            "the shop from there."
        )


def applied_migrations() -> tuple[tuple[str, str], ...]:
    names = MigrationRecorder.Migration.objects.filter(app__in=OURS).order_by("app", "name")
    return tuple(names.values_list("app", "name"))


def _digest(body: Mapping[str, Any]) -> str:
    text = json.dumps(body, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()
