"""The title block: labels above the headings, and what a person typed for them."""

from collections.abc import Sequence
from typing import Any

from shop.tables.columns import Field, folded
from shop.tables.findings import Finding, done_for_you, must_fix
from shop.tables.parsed import FileKind
from shop.tables.repairs import Repairs
from shop.tables.row_kinds import text_right_of
from shop.tables.rows import RowReader
from shop.tables.sheets import Cell, Sheet, SheetRow, column_letters
from shop.tables.values import plain_text


class TitleBlock:
    """Collects the values of the title block, and where each stands."""

    def __init__(self, kind: FileKind, repairs: Repairs, reader: RowReader, findings: list[Finding]) -> None:
        self.kind, self.repairs, self.reader, self.findings = kind, repairs, reader, findings
        self.values: dict[str, Any] = {}
        self.places: dict[str, Finding] = {}

    def take(self, sheet: Sheet, lines: Sequence[SheetRow], *, above_headings: bool = True) -> None:
        """Reads labels with the value in the next filled cell, or "Label: value" in one cell."""
        labels = {word: field for field in self.kind.title for word in field.headings}
        for line in lines:
            cells = list(line.filled())
            for place, (index, cell) in enumerate(cells):
                label, _, value_text = plain_text(cell).partition(":")
                field = labels.get(folded(label))
                if field is None:
                    continue
                if field.name in self.values:
                    self._same_kit(field, sheet, line, index, value_text.strip() or text_right_of(cells, place))
                    continue
                if value_text.strip():
                    self._title_value(field, sheet, line, index, Cell(value_text.strip()))
                elif place + 1 < len(cells):
                    self._title_value(field, sheet, line, cells[place + 1][0], cells[place + 1][1])
        if lines and above_headings:
            at = Finding("", "", (), sheet.name)
            code = "rows_above" if len(lines) > 1 else "row_above"
            self.findings.append(done_for_you(code, at, first=lines[0].number, last=lines[-1].number))

    def _same_kit(self, field: Field, sheet: Sheet, line: SheetRow, index: int, text: str) -> None:
        """Refuses a second kit in one file: its lines would become the first one's."""
        first = str(self.values[field.name])
        own = field.name == self.kind.name and self.places[field.name].sheet != sheet.name
        if own and text and folded(text) != folded(first) and field.name not in self.repairs.fields:
            at = Finding("", "", (), sheet.name, line.number, column_letters(index), field.name, "", text[:120])
            self.findings.append(must_fix("two_in_one_file", at, one=first, other=text[:60]))

    def _title_value(self, field: Field, sheet: Sheet, line: SheetRow, index: int, cell: Cell) -> None:
        if field.name in self.repairs.fields:
            return
        at = Finding("", "", (), sheet.name, line.number, column_letters(index), field.name, "", cell.shown[:120])
        self.places[field.name] = at
        self._read_title(field, cell, sheet.decimal)

    def _read_title(self, field: Field, cell: Cell, decimal: str) -> None:
        at = self.places[field.name]
        self.reader.value(field, cell, decimal, lambda: at, self.values, field.name)

    def take_typed(self) -> None:
        """Reads the fields that a person typed. They win over the file's."""
        for field in self.kind.title:
            text = self.repairs.fields.get(field.name, "").strip()
            if text:
                self.places[field.name] = Finding("", "", field=field.name, says=text)
                self._read_title(field, Cell(text), "")
