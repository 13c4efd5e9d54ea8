"""The import engine: finds the tables of a file, reads their rows, and collects all findings.

`read(kind, name, body, mapping) -> ParsedFile`. Nothing here uses the database. A kind's `plan` turns a ParsedFile into
what would be imported, its `check` compares that with the shop, and its `write` saves it.
"""

from collections.abc import Mapping

from shop.tables.columns import Column
from shop.tables.findings import FileError, Finding, gathered
from shop.tables.parsed import FileKind, ImportPreview, LeftOut, ParsedFile, ParsedRow, Progress, unwatched
from shop.tables.parser import FileParser
from shop.tables.reading import read_file
from shop.tables.repairs import NO_REPAIRS, Repairs
from shop.tables.sheets import EMPTY
from shop.tables.writing import EXPLANATION


def read(
    kind: FileKind,
    name: str,
    body: bytes,
    mapping: Mapping[str, str] | None = None,
    repairs: Repairs = NO_REPAIRS,
    progress: Progress = unwatched,
) -> ParsedFile:
    """Reads a file. Never raises for its content: an unreadable file gives a ParsedFile with that finding only."""
    try:
        file = read_file(name, body)
    except FileError as problem:
        return ParsedFile(name, findings=(Finding("must_fix", problem.code, problem.facts),))
    work = FileParser(kind, mapping or {}, repairs, progress)
    work.rows_in_all = sum(len(sheet.lines) for sheet in file.sheets)
    progress(0, work.rows_in_all)
    for sheet in file.sheets:
        if sheet.name != EXPLANATION:
            work.read_sheet(sheet)
    work.look_back(file.sheets)
    progress(work.rows_in_all, work.rows_in_all)
    return ParsedFile(
        name,
        tuple(work.rows),
        work.title.values,
        work.title.places,
        tuple(work.headings),
        (*file.notes, *work.findings),
        work.skipped,
        tuple({question.key: question for question in reversed(work.questions)}.values())[::-1],
        tuple(work.left_out_rows),
        work.originals,
    )


def shown_findings(*groups: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings that are shown, sorted and limited."""
    return gathered(finding for group in groups for finding in group)


__all__ = [
    "EMPTY",
    "Column",
    "FileKind",
    "ImportPreview",
    "LeftOut",
    "ParsedFile",
    "ParsedRow",
    "read",
    "shown_findings",
]
