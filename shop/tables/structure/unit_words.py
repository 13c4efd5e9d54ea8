"""Reads a unit's word that means a set in one language and a piece in another by the column's other words."""

from dataclasses import replace

from shop.tables.findings import Finding, done_for_you
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, Ruled, with_cell
from shop.tables.units import unit_of

SETS = frozenset(("kpl", "komplet"))
PIECES_BESIDE = frozenset(
    ("szt", "sztuk", "sztuka", "ks", "kus", "kusů")
)  # Polish and Czech; in Finnish "kpl" is a piece


def with_sets(block: Block) -> Ruled:
    """Reads "kpl." as a set where pieces are "szt." or "ks"."""
    index = block.heading.found.get("unit", -1)
    if block.table.layout is None or index < 0:
        return Ruled(block)
    words = [block.text(row, "unit").casefold().rstrip(".") for row in block.rows]
    pieces = {word for word in words if word not in SETS and unit_of(word) == "pc"}
    if not SETS & set(words) or not pieces or pieces - PIECES_BESIDE:
        return Ruled(block)
    rows = tuple(
        replace(row, line=with_cell(row.line, index, Cell("set"))) if word in SETS else row
        for row, word in zip(block.rows, words, strict=True)
    )
    note: Finding = done_for_you("sets_in_pieces", block.at(None, "unit"), n=sum(word in SETS for word in words))
    return Ruled(replace(block, rows=rows), (note,))
