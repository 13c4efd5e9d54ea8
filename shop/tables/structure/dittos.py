"""Ditto marks: a cell that says "as above"."""

from dataclasses import replace

from shop.tables.findings import Finding, done_for_you, must_fix
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, Ruled, with_cell

SIGNS = frozenset(
    ('"', "''", ",,", "\N{RIGHT DOUBLE QUOTATION MARK}", "\N{DOUBLE PRIME}", "\N{DITTO MARK}", '-"-', "-//-", "--//--")
)
WORDS = frozenset(
    ("do", "dto", "ditto", "idem", "jw", "j.w", "as above", "same as above", "wie oben", "comme ci-dessus")
)


def without_dittos(block: Block) -> Ruled:
    """Puts the text of the row above where a cell has a ditto mark. A part number may not have one."""
    layout = block.table.layout
    if layout is None:
        return Ruled(block)
    names = [name for name in (*layout.places, *layout.texts, "unit") if name in block.heading.found]
    last: dict[str, Cell] = {}
    findings: list[Finding] = []
    rows: list[BlockRow] = []
    count = 0
    for row in block.rows:
        for name in names:
            cell = block.cell(row, name)
            text = block.text(row, name).casefold().rstrip(".")
            if text in SIGNS or (name not in layout.texts and text in WORDS):
                index = block.heading.found[name]
                row = replace(row, line=with_cell(row.line, index, last.get(name, Cell())), filled=row.filled | {name})
                count += 1
            else:
                last[name] = cell
        if block.text(row, layout.number) in SIGNS:
            findings.append(must_fix("ditto_for_a_number", block.at(row, layout.number)))
        rows.append(row)
    if not count:
        return Ruled(block, tuple(findings))
    at = Finding("", "", (), block.sheet)
    return Ruled(replace(block, rows=tuple(rows)), (*findings, done_for_you("dittos_read", at, n=count)))
