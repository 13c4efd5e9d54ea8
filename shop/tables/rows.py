"""Reads the cells of a block's rows as the fields of its table."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import Any

from shop.calc.money import rounded
from shop.tables.columns import Field, Heading
from shop.tables.findings import Finding, done_for_you, must_fix, please_check
from shop.tables.parsed import ParsedRow
from shop.tables.repairs import Repairs
from shop.tables.sheets import Cell, column_letters
from shop.tables.structure.blocks import Block, BlockRow
from shop.tables.values import CellError

COST_SCALE = 4


def _place(sheet: str, row: int, index: int, name: str, heading: str, says: str) -> Finding:
    return Finding("", "", (), sheet, row, column_letters(index), name, heading, says)


class RowReader:
    """Reads rows and appends what it cannot read to `findings`."""

    def __init__(self, findings: list[Finding], repairs: Repairs) -> None:
        self.findings, self.repairs = findings, repairs
        self.heading: Heading | None = None
        self.fields: dict[str, tuple[Field, str]] = {}

    def read(self, block: Block, row: BlockRow) -> ParsedRow:
        """The row by field."""
        heading, table = block.heading, block.table
        values: dict[str, Any] = {}
        shown_texts: dict[str, str] = {}
        columns = {**heading.found, **row.columns} if row.columns else heading.found
        for name, index in columns.items():
            cell = row.line.at(index)
            field, title = self._field(heading, name)
            shown_text = cell.shown[:120]
            at = partial(_place, block.sheet, row.line.number, index, name, title, shown_text)
            if cell.empty:
                if field.filled:
                    self.findings.append(must_fix("missing_value", at()))
                continue
            shown_texts[name] = shown_text
            self.value(field, cell, block.decimals.get(name, block.decimal), at, values, name, name in row.filled)
        for name in table.filled:
            if name not in columns and name in table.required:
                self.findings.append(must_fix("missing_value", Finding("", "", (), block.sheet, row.line.number)))
        self._places(block, row, values)
        self._cost(block, row, values)
        return ParsedRow(
            table.name,
            block.sheet,
            row.line.number,
            values,
            columns,
            shown_texts,
            row.section,
            row.when,
            row.filled,
        )

    def _field(self, heading: Heading, name: str) -> tuple[Field, str]:
        """The field of a column and the text of its heading, looked up once for each row of headings."""
        if heading is not self.heading:
            self.heading, self.fields = heading, {}
        if name not in self.fields:
            title = next((column.heading for column in reversed(heading.columns) if column.field == name), "")
            self.fields[name] = heading.table.field(name), title
        return self.fields[name]

    def value(
        self,
        field: Field,
        cell: Cell,
        decimal: str,
        at: Callable[[], Finding],
        values: dict[str, Any],
        name: str,
        filled: bool = False,
    ) -> None:
        """Reads one cell into `values`, or appends why it cannot be read. `at` makes its place.

        A filled cell gets no second remark.
        """
        try:
            value = field.read(cell, decimal)
        except CellError as problem:
            if filled:
                return
            self.findings.append(replace(at(), weight="must_fix", code=problem.code, facts=problem.facts))
            return
        for weight, code, facts in () if filled else value.notes:
            self.findings.append(replace(at(), weight=weight, code=code, facts=facts))
        if value.value is not None and value.value != "":
            values[name] = value.value

    def _places(self, block: Block, row: BlockRow, values: dict[str, Any]) -> None:
        """Places of rows above, and of a range that a person put somewhere."""
        for name, label in row.places.items():
            values.setdefault(name, label)
        for name, label in self.repairs.places_of(block.sheet, row.line.number).items():
            values.pop(name, None)
            if label:
                values[name] = label

    def _cost(self, block: Block, row: BlockRow, values: dict[str, Any]) -> None:
        """Divides a price for several pieces by their number."""
        cost = values.get("cost")
        column = next((column for column in block.heading.columns if column.field == "cost"), None)
        base = values.get("per") or (column.base if column else 1)
        if not isinstance(cost, Decimal) or base == 1:
            return
        exact = cost / Decimal(base)
        values["cost"] = rounded(exact, COST_SCALE)
        at = block.at(row, "cost")
        facts = {"base": base, "cost": f"{values['cost'].normalize():f}"}
        note = done_for_you if values["cost"] == exact else please_check
        self.findings.append(note("price_divided" if values["cost"] == exact else "price_divided_rounded", at, **facts))
