"""Marks the rows that a person has left out or put into a bag."""

from dataclasses import replace

from shop.tables.repairs import Repairs
from shop.tables.row_kinds import whole_text
from shop.tables.structure.blocks import Block, BlockRow


def with_settled(block: Block, repairs: Repairs) -> Block:
    """The block whose rows are marked as left out or as put into a bag."""
    if not (repairs.left_out or repairs.texts_left_out or repairs.ranges):
        return block
    return replace(block, rows=tuple(_settled(block.sheet, row, repairs) for row in block.rows))


def _settled(sheet: str, row: BlockRow, repairs: Repairs) -> BlockRow:
    number, text = row.line.number, whole_text(row.line)
    gone = (sheet, number) in repairs.left_out or text in repairs.texts_left_out
    return replace(row, gone=text if gone else "", placed=bool(repairs.places_of(sheet, number)))
