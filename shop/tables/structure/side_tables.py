"""A second table to the right of the first: the list's other half, other parts, or something else."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shop.tables.columns import Heading, Table, match_headings
from shop.tables.findings import Finding, done_for_you, facts_of, please_check
from shop.tables.sheets import EMPTY, SheetRow, column_letters
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered
from shop.tables.values import plain_text


@dataclass(frozen=True, slots=True)
class Parted:
    """A row of headings cut at its empty columns.

    `width` are the columns of the first table (0: all). `starts` are the first columns of the halves that are read too.
    """

    width: int = 0
    starts: tuple[int, ...] = ()
    findings: tuple[Finding, ...] = ()
    questions: tuple[FileQuestion, ...] = ()


def parted(
    line: SheetRow,
    table: Table,
    mapping: Mapping[str, str],
    above: Sequence[SheetRow],
    sheet: str,
    answers: Answers,
) -> Parted:
    """Parts a row of headings. Columns that the first table lacks stay with it, even behind an empty one."""
    runs = _runs(line)
    if len(runs) < 2 or table.layout is None:
        return Parted()
    first = match_headings(_cut(line, *runs[0]), table, mapping)
    if first.missing:
        return Parted()
    width = 0
    starts: list[int] = []
    findings: list[Finding] = []
    questions: list[FileQuestion] = []
    for start, end in runs[1:]:
        part = match_headings(_cut(line, start, end), table, mapping)
        if set(part.found) - set(first.found) and table.layout.number not in part.found:
            continue
        width = width or start
        if table.layout.number not in part.found:
            continue
        at = Finding("", "", (), sheet, line.number, column_letters(start))
        names = {"first": column_letters(start), "last": column_letters(end - 1)}
        if part.missing or set(part.found) != set(first.found):
            findings.append(please_check("second_table_left_out", replace(at, column=""), **names))
            continue
        title = _title_above(above, start, end)
        if not title:
            findings.append(done_for_you("second_table_read", at, **names))
            starts.append(start)
            continue
        question = answered(
            FileQuestion(
                "second_table",
                "second_table",
                (AnswerChoice("out", "second_table_out"), AnswerChoice("read", "second_table_in")),
                "out",
                facts_of(what=title, **names),
                sheet,
                names["first"],
            ),
            answers,
        )
        questions.append(question)
        if question.value == "read":
            starts.append(start)
    return Parted(width, tuple(starts), tuple(findings), tuple(questions))


def left_of(line: SheetRow, width: int) -> SheetRow:
    """The row without the columns of a second table."""
    return replace(line, cells=line.cells[:width]) if width else line


def right_of(line: SheetRow, start: int, end: int) -> SheetRow:
    """The row with only the columns of a second table."""
    return _cut(line, start, end)


def end_of(heading_line: SheetRow, start: int) -> int:
    """The column behind the run of headings that begins at `start`."""
    return next(end for begin, end in _runs(heading_line) if begin == start)


def heading_of(line: SheetRow, start: int, table: Table, mapping: Mapping[str, str]) -> Heading:
    """The headings of a second table."""
    return match_headings(_cut(line, start, end_of(line, start)), table, mapping)


def _runs(line: SheetRow) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for index, _ in line.filled():
        if runs and runs[-1][1] == index:
            runs[-1] = (runs[-1][0], index + 1)
        else:
            runs.append((index, index + 1))
    return runs


def _cut(line: SheetRow, start: int, end: int) -> SheetRow:
    return replace(line, cells=(*[EMPTY] * start, *line.cells[start:end]))


def _title_above(above: Sequence[SheetRow], start: int, end: int) -> str:
    cells = (line.at(index) for line in reversed(above[-3:]) for index in range(start, end))
    return next((plain_text(cell) for cell in cells if not cell.empty), "")
