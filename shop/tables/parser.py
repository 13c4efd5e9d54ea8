"""Finds the tables of a file's sheets and reads their rows."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import zip_longest

from shop.tables.columns import Heading, almost_heading, best_heading, folded, known_words, nearest_heading
from shop.tables.corrections import corrected
from shop.tables.findings import Finding, done_for_you, must_fix, please_check
from shop.tables.parsed import FileKind, LeftOut, ParsedRow, Progress, unwatched
from shop.tables.repairs import Repairs
from shop.tables.row_kinds import (
    first_text,
    goes_on,
    is_section,
    is_total,
    same_headings,
    sheet_words,
    whole_text,
)
from shop.tables.rows import RowReader
from shop.tables.sheets import Sheet, SheetRow
from shop.tables.structure import by_letter, side_tables
from shop.tables.structure.blocks import Block, BlockRow, some
from shop.tables.structure.feet import is_foot
from shop.tables.structure.heading_rows import columns_without_heading, in_two_rows
from shop.tables.structure.hidden import without_hidden
from shop.tables.structure.place_rows import NamedPlace, place_of
from shop.tables.structure.questions import FileQuestion
from shop.tables.structure.rules import ruled
from shop.tables.structure.settled import with_settled
from shop.tables.structure.variants import condition_in
from shop.tables.title_block import TitleBlock
from shop.tables.values import plain_text

ROWS_A_NOTE = 250  # between two notes of the progress
NEAR = 6  # rows above the headings that may name the place of the lines under them
LOOKED_AT = 60  # a table must begin within this number of rows


class FileParser:
    """Collects the rows, headings, findings and questions of one file."""

    def __init__(
        self, kind: FileKind, mapping: Mapping[str, str], repairs: Repairs, progress: Progress = unwatched
    ) -> None:
        self.kind, self.mapping, self.repairs, self.progress = kind, mapping, repairs, progress
        self.named = by_letter.without_letters(mapping)
        self.rows_in_all = 0
        self.words = known_words(kind.tables, mapping)
        self.rows: list[ParsedRow] = []
        self.headings: list[tuple[str, Heading]] = []
        self.findings: list[Finding] = []
        self.questions: list[FileQuestion] = []
        self.left_out_rows: list[LeftOut] = []
        self.originals: dict[tuple[str, int, str], str] = {}
        self.skipped = 0
        self.left_out: list[Sheet] = []
        self.reader = RowReader(self.findings, repairs)
        self.title = TitleBlock(kind, repairs, self.reader, self.findings)

    def read_sheet(self, raw: Sheet) -> None:
        sheet, findings, questions = without_hidden(raw, self.repairs.answers)
        self.findings += findings
        self.questions += questions
        if len(sheet.lines) < len(raw.lines):
            gone = {line.number for line in raw.lines} - {line.number for line in sheet.lines}
            for line in raw.lines:
                if line.number in gone:
                    self._leave_out(sheet, "hidden" if line.number in raw.hidden_rows else "struck", line)
        if self.named != self.mapping and not self._has_headings(sheet):
            sheet, questions = by_letter.with_letters(sheet, self.kind.tables, self.mapping, self.repairs.answers)
            self.questions += questions
        walk = _SheetWalk(self, sheet)
        below: SheetRow | None
        for line, below in zip_longest(sheet.lines, sheet.lines[1:]):
            walk.take(line, below)
        walk.end()
        self.skipped += sheet.blank
        if walk.heading is None:
            self.left_out.append(sheet)

    def _has_headings(self, sheet: Sheet) -> bool:
        return any(self.heading_in(line, sheet, None) for line in sheet.lines[:LOOKED_AT])

    def heading_in(self, line: SheetRow, sheet: Sheet, current: Heading | None) -> Heading | None:
        """The headings that the row has, if it has any."""
        if current is None and line.number > LOOKED_AT + (sheet.lines[0].number if sheet.lines else 0):
            return None
        if current is not None and _first_word(line) not in self.words:
            return None
        fewest = 1 if line.number == by_letter.ROW else 2  # a word alone may be no heading; a chosen letter is
        heading = best_heading(line, self.kind.tables, sheet.name, self.mapping, fewest)
        if heading is None and self.named != self.mapping:
            heading = best_heading(line, self.kind.tables, sheet.name, self.named)
        if heading is None and current is not None:
            heading = almost_heading(
                line, [table for table in self.kind.tables if table is not current.table], self.mapping
            )
        return heading

    def note_heading(self, sheet: Sheet, heading: Heading, line: SheetRow) -> None:
        heading = by_letter.told_apart(heading, sheet)
        self.headings.append((sheet.name, heading))
        self.words |= {_first_word(line)}  # "Pos", which no kind of file has, leads the repeated headings too
        several = {column.index for column in heading.several}
        self.note_missing(sheet, heading)
        for column in heading.columns:
            at = Finding("", "", (), sheet.name, heading.number, column.letters, "", column.heading, column.heading)
            if any(duplicate.index == column.index for duplicate in heading.twice):
                self.findings.append(please_check("heading_twice", at))
            elif column.holds and not column.field:
                at = replace(at, says=", ".join(column.holds))
                self.findings.append(done_for_you("letter_left_out", at, column=column.letters))
            elif not column.field and column.index not in several:
                self.findings.append(done_for_you("column_left_out", at))

    def note_missing(self, sheet: Sheet, heading: Heading) -> None:
        for name in sorted(heading.missing):
            at = Finding("", "", (), sheet.name, heading.number, field=name)
            self.findings.append(must_fix("column_missing", at))

    def finish(self, block: Block) -> None:
        """Applies the rules to a whole block, then reads the cells of its rows."""
        block, originals, remarks = corrected(block, self.repairs)
        block = with_settled(block, self.repairs)
        self.originals |= originals
        self.findings += remarks
        layout = block.table.layout
        if layout is not None:
            numbers = [row.line.number for row in block.rows]
            outcome = ruled(block, self.repairs.answers)
            block = outcome.block
            self.findings += outcome.findings
            self.questions += outcome.questions
            numbers_left = {row.line.number for row in block.rows}
            sums = [row for row in numbers if row not in numbers_left]
            self.skipped += len(sums)
            texts = {finding.row: finding.says for finding in outcome.findings}
            self.left_out_rows += [LeftOut(block.sheet, row, "total", texts.get(row, "")) for row in sums]
        elif sections := list(dict.fromkeys(row.section_row for row in block.rows if row.section_row)):
            at = Finding("", "", (), block.sheet)
            self.findings.append(done_for_you("sections_left_out", at, n=len(sections), rows=some(sections)))
        for row in block.rows:
            text = row.gone or (whole_text(row.line) if self.repairs.texts_left_out else "")
            if row.gone or text in self.repairs.texts_left_out:
                self.skipped += 1
                self.left_out_rows.append(LeftOut(block.sheet, row.line.number, "by_you", text))
            else:
                self.rows.append(self.reader.read(block, row))
            if len(self.rows) % ROWS_A_NOTE == 0:
                self.progress(len(self.rows), self.rows_in_all)

    def _leave_out(self, sheet: Sheet, why: str, *lines: SheetRow) -> None:
        for line in lines:
            self._leave_out_row(sheet.name, why, line)

    def _leave_out_row(self, sheet: str, why: str, line: SheetRow) -> None:
        self.left_out_rows.append(LeftOut(sheet, line.number, why, whole_text(line)))

    def leave_out(self, sheet: Sheet, why: str, line: SheetRow) -> None:
        """Notes a row that is no line."""
        self.skipped += 1
        self._leave_out(sheet, why, line)

    def look_back(self, sheets: tuple[Sheet, ...]) -> None:
        """Runs after all sheets: reports sheets that were not recognised and mappings that match nothing."""
        for sheet in self.left_out:
            if not sheet.lines:
                continue
            before = set(self.title.values)
            self.skipped += len(sheet.lines)
            if self.kind.title:
                self.title.take(sheet, sheet.lines, above_headings=bool(self.headings))
            if self.headings and set(self.title.values) == before:
                self.findings.append(done_for_you("sheet_left_out", Finding("", "", (), sheet.name)))
        self.title.take_typed()
        if not self.headings:
            self._no_heading(sheets)
        elif not self.rows:
            self.findings.append(must_fix("only_headings"))
        self._unused_mapping()

    def _no_heading(self, sheets: tuple[Sheet, ...]) -> None:
        for sheet in sheets:
            near = nearest_heading(sheet.lines[:LOOKED_AT], self.kind.tables, self.mapping)
            if near is not None:
                self.headings.append((sheet.name, near))
                self.note_missing(sheet, near)
                return
        for sheet in [sheet for sheet in sheets if sheet.lines][:1]:
            heading = by_letter.lettered(sheet, self.kind.tables, self.mapping)
            self.headings.append((sheet.name, heading))
            if heading.found:
                self.note_missing(sheet, heading)
                return
        self.findings.append(must_fix("no_headings"))

    def _unused_mapping(self) -> None:
        names = {field.name for table in self.kind.tables for field in table.fields}
        headings = {
            folded(column.heading): column.heading for _, heading in self.headings for column in heading.columns
        }
        for key, heading in self.mapping.items():
            name = key.rpartition(".")[2].partition(":")[0]
            if name not in names:
                self.findings.append(must_fix("mapping_field_unknown", field=key, known=", ".join(sorted(names))))
            elif folded(heading) not in headings:
                titles = ", ".join(headings.values()) or "-"
                self.findings.append(must_fix("mapping_heading_unknown", field=key, heading=heading, there=titles))


def _first_word(line: SheetRow) -> str:
    """The row's first text, as headings are compared."""
    return folded(next((plain_text(cell) for _, cell in line.filled() if isinstance(cell.value, str)), ""))


class _SheetWalk:
    """Goes down a sheet and sorts its rows into blocks of lines and rows that are none."""

    def __init__(self, parser: FileParser, sheet: Sheet) -> None:
        self.parser, self.sheet = parser, sheet
        self.heading: Heading | None = None
        self.above: list[SheetRow] = []
        self.rows: list[BlockRow] = []
        self.section, self.section_row = "", 0
        self.sections: list[int] = []
        self.used_sections: set[int] = set()
        self.places: dict[str, str] = {}
        self.place_rows: list[int] = []
        self.second_row: SheetRow | None = None
        self.parted = side_tables.Parted()
        self.sides: list[tuple[int, Heading, list[SheetRow]]] = []

    def take(self, line: SheetRow, below: SheetRow | None = None) -> None:
        """Sorts one row. `below` is the next one, which may be the second row of its headings."""
        if line is self.second_row:
            return
        heading = self.parser.heading_in(line, self.sheet, self.heading)
        if heading is not None and below is not None and (joined := in_two_rows(line, below, heading)) is not None:
            self._join(joined, below)
            self.take(joined)
            return
        if heading is not None:
            self._begin(line, heading)
            return
        if self.heading is None:
            self.above.append(line)
            return
        for start, side, lines in self.sides:
            end = max(column.index for column in side.columns) + 1
            lines.append(side_tables.right_of(line, start, end))
        self._sort(side_tables.left_of(line, self.parted.width))

    def _join(self, joined: SheetRow, below: SheetRow) -> None:
        self.second_row = below
        self.parser.leave_out(self.sheet, "heading", below)
        names = ", ".join(f"“{plain_text(joined.at(index))}”" for index, _ in below.filled())
        at = Finding("", "", (), self.sheet.name, below.number)
        self.parser.findings.append(done_for_you("headings_in_two_rows", at, headings=names))

    def end(self) -> None:
        """Finishes the last block, and the tables to its right."""
        self._finish()
        for _, side, lines in self.sides:
            self.sides, self.parted, self.heading, self.places = [], side_tables.Parted(), side, {}
            for line in lines:
                if any(True for _ in line.filled()):
                    self._sort(line)
            self._finish()
        if self.place_rows:
            at = Finding("", "", (), self.sheet.name)
            self.parser.findings.append(done_for_you("places_in_rows", at, n=len(self.place_rows)))
        unused = [row for row in self.sections if row not in self.used_sections]
        if unused:
            at = Finding("", "", (), self.sheet.name)
            self.parser.findings.append(done_for_you("sections_left_out", at, n=len(unused), rows=some(unused)))

    def _begin(self, line: SheetRow, heading: Heading) -> None:
        parser = self.parser
        if self.heading is None or heading.table is not self.heading.table:
            cut = side_tables.parted(
                line, heading.table, parser.mapping, self.above, self.sheet.name, parser.repairs.answers
            )
            if cut.width:
                parser.findings += cut.findings
                parser.questions += cut.questions
                first = parser.heading_in(side_tables.left_of(line, cut.width), self.sheet, None)
                heading = first or heading
            if self.heading is not None:
                self._finish()
            self.parted = cut
            self.sides = [
                (start, side_tables.heading_of(line, start, heading.table, parser.mapping), []) for start in cut.starts
            ]
        elif self.parted.width:
            heading = parser.heading_in(side_tables.left_of(line, self.parted.width), self.sheet, None) or heading
        again = self.heading is not None and same_headings(heading, self.heading)
        if line.number != by_letter.ROW:
            parser.leave_out(self.sheet, "heading", line)
        if again:
            self.section, self.section_row = "", 0
            at = Finding("", "", (), self.sheet.name, line.number)
            parser.findings.append(done_for_you("heading_again", at))
            return
        if self.heading is None:
            parser.skipped += len(self.above)
            parser.title.take(self.sheet, self.above)
        else:
            self._finish()
        above, self.above = self.above, []
        self.heading, self.section, self.section_row, self.places = heading, "", 0, {}
        if (named := place_of(sheet_words(self.sheet.name))) is not None:
            self._enter_by_sheet(named, heading)
        for row in above[-NEAR:]:
            if (place := self._place(row, heading)) is not None:
                self._enter(row, place)
        parser.note_heading(self.sheet, heading, line)

    def _sort(self, line: SheetRow) -> None:
        heading = self.heading
        assert heading is not None
        layout = heading.table.layout
        if layout is not None and (place := self._place(line, heading)) is not None:
            self._enter(line, place)
            begun = self.rows and self.rows[-1].section_row == self.section_row
            if begun or condition_in(self.section) is None:  # "Automatic only" above "Bag 3" is about the bag's lines
                self.section, self.section_row = "", 0
            self.parser.leave_out(self.sheet, "section", line)
        elif layout is not None and is_foot(line, heading.found.get(layout.quantity, -1)):
            self.parser.leave_out(self.sheet, "foot", line)
            at = Finding("", "", (), self.sheet.name, line.number, says=first_text(line))
            self.parser.findings.append(done_for_you("foot_left_out", at))
        elif is_total(line, heading):
            self.parser.leave_out(self.sheet, "total", line)
            at = Finding("", "", (), self.sheet.name, line.number, says=first_text(line))
            self.parser.findings.append(done_for_you("total_left_out", at))
        elif is_section(line, heading):
            self.parser.leave_out(self.sheet, "section", line)
            self.sections.append(line.number)
            if not (layout is not None and goes_on(line, heading)):
                self.section, self.section_row = first_text(line), line.number
        else:
            if self.section_row:
                self.used_sections.add(self.section_row)
            self.rows.append(BlockRow(line, self.section, self.section_row, dict(self.places)))

    def _enter_by_sheet(self, place: NamedPlace, heading: Heading) -> None:
        """Takes the carton or the bag from the name of the sheet or the file, if the list has no column for it."""
        layout = heading.table.layout
        if layout is None or not layout.places or layout.places[place.level] in heading.found:
            return
        self.places[layout.places[place.level]] = place.label
        at = Finding("", "", (), self.sheet.name)
        self.parser.findings.append(done_for_you("place_by_sheet", at, what=self.sheet.name))

    def _enter(self, line: SheetRow, place: NamedPlace) -> None:
        """Notes the carton or the bag of the lines under a row."""
        assert self.heading is not None and self.heading.table.layout is not None
        places = self.heading.table.layout.places
        inner = places[place.level :]
        self.places = {name: text for name, text in self.places.items() if name not in inner}
        self.places[places[place.level]] = place.label
        if place.carton:
            self.places[places[0]] = place.carton
        self.place_rows.append(line.number)

    def _place(self, line: SheetRow, heading: Heading) -> NamedPlace | None:
        """The carton or bag that a row of its own names: no description, and no number but that name."""
        layout = heading.table.layout
        cells = list(line.filled())
        if layout is None or not layout.places or not cells or len(cells) > 3 or not isinstance(cells[0][1].value, str):
            return None
        place = place_of(plain_text(cells[0][1]))
        if place is None or place.level >= len(layout.places):
            return None
        taken = {heading.found.get(name, -1) for name in (layout.number, *layout.texts)} - {cells[0][0]}
        return None if any(index in taken for index, _ in cells[1:]) else place

    def _finish(self) -> None:
        if self.heading is not None and self.heading.missing:
            for row in self.rows:
                self.parser.leave_out(self.sheet, "no_column", row.line)
        elif self.heading is not None and self.rows:
            block = Block(self.sheet.name, self.heading, tuple(self.rows), self.sheet.decimal)
            self.parser.findings += columns_without_heading(block)
            self.parser.finish(block)
        self.rows = []
