"""Deletes older backups, so that a folder of nightly ones does not fill the disk."""

import re
import shutil
from dataclasses import dataclass
from pathlib import Path

from shop.backups.manifest import BackupError, read_manifest, sync_to_disk

DATED = re.compile(r"kitwright-\d{8}T\d{6}Z")


@dataclass(frozen=True, slots=True)
class Thinned:
    """The backups that were deleted, and the damaged ones that were left for a person to look at."""

    deleted: tuple[Path, ...]
    left: tuple[Path, ...]


def thin_out(folder: Path, keep: int) -> Thinned:
    """Deletes the whole backups beyond the `keep` newest. Anything else in the folder stays, also a damaged backup."""
    if keep < 1:
        raise BackupError("--keep: at least 1 backup is kept.")
    dated = [path for path in folder.iterdir() if DATED.fullmatch(path.name) and not path.is_symlink()]
    deleted, left = [], []
    for path in sorted(dated, key=lambda path: path.name, reverse=True)[keep:]:
        try:
            read_manifest(path)
        except (BackupError, OSError):
            left.append(path)
            continue
        going = path.with_name(f".{path.name}.deleting")  # half a backup never has the name of a whole one
        path.rename(going)
        shutil.rmtree(going)
        deleted.append(path)
    sync_to_disk(folder)
    return Thinned(tuple(deleted), tuple(left))
