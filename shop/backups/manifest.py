"""The manifest of a backup: size and SHA-256 of each file, and a digest of the manifest itself."""

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

NAME = "manifest.json"
FORMAT = 1


class BackupError(Exception):
    """Raised if a backup cannot be made or restored. The message is for the person at the command line."""


@dataclass(frozen=True, slots=True)
class BackupFile:
    """Size and digest of a file in a backup."""

    bytes: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """The content of a backup."""

    made_at: str  # RFC 3339, UTC
    version: str  # of Kitwright
    engine: str  # sqlite or postgresql
    schema: str  # PostgreSQL's; empty on SQLite
    migrations: tuple[tuple[str, str], ...]  # all migrations applied to the database
    counts: Mapping[str, int]  # {table: rows}
    shops: Mapping[str, int]  # {shop's id: its log's epoch}
    parts: Mapping[str, BackupFile] = field(default_factory=dict)  # {path inside the folder: file}
    format: int = FORMAT


def backup_file(path: Path) -> BackupFile:
    """Size and digest of the file at a path."""
    with path.open("rb") as file:
        return BackupFile(path.stat().st_size, hashlib.file_digest(file, "sha256").hexdigest())


def backup_files(folder: Path) -> dict[str, BackupFile]:
    """{path inside the folder: file} of all files but the manifest."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): backup_file(path) for path in files if path != folder / NAME}


def write_manifest(folder: Path, manifest: Manifest) -> None:
    body = asdict(manifest)
    text = json.dumps({**body, "digest": _digest(body)}, indent=1, sort_keys=True)
    write_durably(folder / NAME, text.encode())


def read_manifest(folder: Path) -> Manifest:
    """The manifest of a complete backup. BackupError names the first file that is damaged, missing or surplus."""
    try:
        body: dict[str, Any] = json.loads((folder / NAME).read_text("utf-8"))
    except FileNotFoundError:
        raise BackupError(f"{folder} is not a backup: it has no {NAME}.") from None
    except ValueError:
        raise BackupError(f"{folder}/{NAME} is damaged. Take another backup.") from None
    if not isinstance(body, dict) or body.get("format") != FORMAT:
        raise BackupError(f"{folder}/{NAME} is of a format that this version of Kitwright does not know.")
    if body.pop("digest", None) != _digest(body):
        raise BackupError(f"{folder}/{NAME} is damaged. Take another backup.")
    parts = {path: BackupFile(**part) for path, part in body.pop("parts").items()}
    _compare(folder, parts, backup_files(folder))
    body["migrations"] = tuple((app, name) for app, name in body["migrations"])
    return Manifest(**body, parts=parts)


def _compare(folder: Path, listed: Mapping[str, BackupFile], present: Mapping[str, BackupFile]) -> None:
    for path in sorted({*listed, *present}):
        if path not in present:
            raise BackupError(f"{folder}/{path} is missing. Take another backup.")
        if path not in listed:
            raise BackupError(f"{folder}/{path} does not belong to this backup. Move it elsewhere.")
        if listed[path] != present[path]:
            raise BackupError(f"{folder}/{path} is damaged: it is not what was backed up. Take another backup.")


def _digest(body: Mapping[str, Any]) -> str:
    text = json.dumps(body, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def write_durably(path: Path, body: bytes) -> None:
    """Writes a file readable by its owner only, and waits until it is on the disk."""
    with os.fdopen(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as file:
        file.write(body)
        file.flush()
        os.fsync(file.fileno())


def sync_to_disk(path: Path) -> None:
    """Waits until a file, or a folder's list of names, is on the disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
