"""Archives with other content, signed as a good one is."""

import csv
import io
import zipfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from shop.archives.manifest import NAME, as_json, checked, part_of

Parts = dict[str, bytes]


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
