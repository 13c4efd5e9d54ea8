"""Several files of one list, such as carton A.csv and carton B.csv: read as one, each as a sheet of its own."""

import io
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import PurePath

from shop.tables.findings import FileError, Finding
from shop.tables.sheets import RawFile, Sheet, enough

ENDING = ".zip"
MOST = 20  # files in one
LONGEST_NAME = 60
FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # the archive's bytes depend on its files alone


def together(files: Iterable[tuple[str, bytes]]) -> tuple[str, bytes]:
    """(name, bytes) of one archive with the files as they were sent, uncompressed: its size indicates their rows.

    A number distinguishes equal names.
    """
    out = io.BytesIO()
    names: list[str] = []
    with zipfile.ZipFile(out, "w") as archive:
        for number, (name, body) in enumerate(files, 1):
            own = PurePath(name).name or f"{number}.csv"
            names.append(f"{number} {own}" if own in names else own)
            archive.writestr(zipfile.ZipInfo(names[-1], FIRST_DAY), body)
    return " + ".join(names)[:150] + ENDING, out.getvalue()


def read_several(name: str, body: bytes, read: Callable[[str, bytes], RawFile], most_bytes: int) -> RawFile:
    """The sheets of all files in the archive, named after their files. Raises FileError for what could do harm."""
    sheets: list[Sheet] = []
    notes: list[Finding] = []
    try:
        with zipfile.ZipFile(io.BytesIO(body)) as archive:
            entries = [entry for entry in archive.infolist() if not entry.is_dir()]
            if len(entries) > MOST:
                raise FileError("too_many_files", limit=MOST)
            if any(entry.flag_bits & 1 for entry in entries):
                raise FileError("locked_workbook")
            left = most_bytes
            for entry in entries:
                with archive.open(entry) as part:
                    content = part.read(left + 1)  # no more, whatever size the archive claims
                left -= len(content)
                if left < 0:
                    raise FileError("unpacks_too_large")
                own = PurePath(entry.filename)
                if own.suffix.casefold() == ENDING:
                    raise FileError("not_a_table")
                file = read(own.name, content)
                stem = own.stem[:LONGEST_NAME]
                sheets += [replace(sheet, name=_named(stem, sheet.name)) for sheet in file.sheets]
                notes += [replace(note, sheet=_named(stem, note.sheet)) for note in file.notes]
    except (zipfile.BadZipFile, NotImplementedError, EOFError, OSError, ValueError) as problem:
        if isinstance(problem, FileError):
            raise
        raise FileError("damaged_workbook") from problem
    if not sheets:
        raise FileError("empty_file")
    enough(sum(len(sheet.lines) for sheet in sheets), 0)
    return RawFile(name, tuple(sheets), tuple(notes))


def _named(stem: str, sheet: str) -> str:
    return f"{stem}, {sheet}" if sheet else stem
