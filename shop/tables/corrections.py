"""Replaces cells of a block by a person's corrections."""

from collections.abc import Mapping
from dataclasses import replace

from shop.tables.findings import Finding, done_for_you
from shop.tables.repairs import Repairs
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, with_cell

Cells = Mapping[tuple[str, int, str], str]  # {(sheet, row, field): text}


def corrected(block: Block, repairs: Repairs) -> tuple[Block, dict[tuple[str, int, str], str], list[Finding]]:
    """(the block with corrected cells, their texts in the file, findings on corrections of the supplier's last file)"""
    originals: dict[tuple[str, int, str], str] = {}
    findings: list[Finding] = []
    if not block.rows or not (repairs.values or repairs.texts):
        return block, originals, findings
    width = max(len(row.line.cells) for row in block.rows)
    rows = []
    for row in block.rows:
        for name, index in block.heading.found.items():
            was = row.line.at(index)
            key = (block.sheet, row.line.number, name)
            text = repairs.values.get(key, repairs.texts.get((name, was.shown)))
            if text is None:
                continue
            originals[key] = was.shown
            if key not in repairs.values:
                at = replace(block.at(row, name), says=was.shown[:120])
                findings.append(done_for_you("corrected_as_before", at, value=text))
            row = replace(row, line=with_cell(row.line, index, Cell(text or None)))
        rows.append(_with_more_columns(row, block, repairs.values, width))
    return replace(block, rows=tuple(rows)), originals, findings


def _with_more_columns(row: BlockRow, block: Block, values: Cells, width: int) -> BlockRow:
    """The row with a person's texts for fields without a column, in columns after the last one."""
    names = {field.name for field in block.table.fields} - set(block.heading.found)
    for (sheet, number, name), text in values.items():
        if text and sheet == block.sheet and number == row.line.number and name in names:
            index = width + len(row.columns)
            row = replace(row, line=with_cell(row.line, index, Cell(text)), columns={**row.columns, name: index})
    return row
