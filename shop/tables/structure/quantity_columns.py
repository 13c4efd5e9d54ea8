"""Reads several columns of quantities: one for each variant of the vehicle, or one that counts beside others."""

from collections.abc import Mapping
from dataclasses import replace

from shop.tables.columns import Column, folded
from shop.tables.conditions import Condition, attribute_name
from shop.tables.findings import Finding, done_for_you, facts_of
from shop.tables.sheets import Cell, column_letters
from shop.tables.structure.blocks import Block, BlockRow, Ruled
from shop.tables.structure.place_rows import NamedPlace, place_of
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered
from shop.tables.structure.totals import amount_of
from shop.tables.structure.variants import value_in
from shop.tables.values import plain_text

SIDES = ("LHD", "RHD")
NONE = frozenset({"", "-", "–", "—", "x", "0", "n/a"})


def with_quantities(block: Block, answers: Answers) -> Ruled:
    """Ties each column of quantities to the value that its heading names, as "Qty manual" and "Qty LHD" do.

    It asks about other columns.
    """
    layout = block.table.layout
    columns = block.heading.several
    if layout is None or len(columns) < 2:
        return Ruled(block)
    if places := _places(block, columns):
        sums = [column for column in columns if column.index not in places]
        at = Finding("", "", (), block.sheet, block.heading.number, columns[0].letters, layout.quantity)
        if all(_adds_up(block, row, places, column) for column in sums for row in block.rows):
            note = done_for_you("quantities_by_place", at, n=len(places))
            return Ruled(_by_place(block, layout.quantity, places), (note,))
    values = {column.index: value_in(column.heading) for column in columns}
    tied = {index: value for index, value in values.items() if value is not None}
    headings = ", ".join(column.heading for column in columns)
    at = Finding("", "", (), block.sheet, block.heading.number, columns[0].letters, layout.quantity)
    note = done_for_you("quantities_by_variant", at, headings=headings)
    if len(set(tied.values())) == len(columns):
        return Ruled(_by_variant(block, layout.quantity, tied), (note,))
    opposite = sorted(filter(None, map(_drive_side, columns))) == list(SIDES)
    question = _question(block, layout.quantity, columns, answers, settled=opposite and len(columns) == len(SIDES))
    if question.value == "variants":
        names = frozenset(block.table.field(layout.quantity).headings)
        own = {column.index: _variant(column, names) for column in columns}
        return Ruled(_by_variant(block, layout.quantity, own), () if question.needed else (note,), (question,))
    index = next(column.index for column in columns if column.letters == question.value)
    rows = tuple(replace(row, columns={**row.columns, layout.quantity: index}) for row in block.rows)
    return Ruled(replace(block, rows=rows), (), (question,))


def _places(block: Block, columns: tuple[Column, ...]) -> dict[int, NamedPlace]:
    """The columns that are a bag each, if nothing but quantities stands in them; else none."""
    places = {column.index: place for column in columns if (place := place_of(column.heading)) is not None}
    for row in block.rows:
        for index in places:
            cell = row.line.at(index)
            if plain_text(cell).casefold() not in NONE and amount_of(cell, block.decimal) is None:
                return {}
    return places if len(places) > 1 else {}


def _adds_up(block: Block, row: BlockRow, places: Mapping[int, NamedPlace], column: Column) -> bool:
    """True if the cell is what the row's columns of places add up to."""
    amounts = (amount_of(row.line.at(index), block.decimal) or 0 for index in places)
    return sum(amounts) == amount_of(row.line.at(column.index), block.decimal)


def _by_place(block: Block, name: str, places: Mapping[int, NamedPlace]) -> Block:
    """The block with a line for each bag that holds some of a row's pieces."""
    layout = block.table.layout
    assert layout is not None
    rows: list[BlockRow] = []
    for row in block.rows:
        filled = [index for index in places if _counts(row.line.at(index), block.decimal)]
        for index in filled or list(places)[:1]:
            place = {layout.places[places[index].level]: places[index].label} if filled else {}
            rows.append(replace(row, columns={**row.columns, name: index}, places={**row.places, **place}))
    return replace(block, rows=tuple(rows))


def _drive_side(column: Column) -> str:
    """The side of the steering wheel that a heading such as "Qty LHD" names; "" for any other heading."""
    sides = [word for word in column.heading.upper().replace("(", " ").replace(")", " ").split() if word in SIDES]
    return sides[0] if len(sides) == 1 else ""


def _question(block: Block, name: str, columns: tuple[Column, ...], answers: Answers, *, settled: bool) -> FileQuestion:
    by_letters = tuple(
        AnswerChoice(column.letters, "quantity_column", facts_of(column=column.letters, heading=column.heading))
        for column in columns
    )
    headings = ", ".join(f"{column.letters} “{column.heading}”" for column in columns)
    return answered(
        FileQuestion(
            name,
            "quantity",
            (*by_letters, AnswerChoice("variants", "quantity_variants")),
            "variants" if settled else column_letters(block.heading.found[name]),
            facts_of(headings=headings, n=len(columns)),
            block.sheet,
            needed=not settled,
        ),
        answers,
    )


def _variant(column: Column, names: frozenset[str]) -> Condition:
    """The condition of a column whose heading names an unknown value: "Qty LHD" and "LHD qty" are variant=LHD."""
    words = column.heading.replace("(", " ").replace(")", " ").split()
    rest = " ".join([word for word in words if folded(word) not in names] or words)
    return attribute_name("variant"), (rest[:40],)


def _by_variant(block: Block, name: str, values: Mapping[int, Condition]) -> Block:
    rows: list[BlockRow] = []
    for row in block.rows:
        filled = {index: value for index, value in values.items() if _counts(row.line.at(index), block.decimal)}
        amounts = {plain_text(row.line.at(index)) for index in filled}
        if len(filled) == len(values) and len(amounts) == 1 or not filled:
            rows.append(replace(row, columns={**row.columns, name: next(iter(filled or values))}))
            continue
        rows += [
            replace(row, columns={**row.columns, name: index}, when=(*row.when, value))
            for index, value in filled.items()
        ]
    return replace(block, rows=tuple(rows))


def _counts(cell: Cell, decimal: str) -> bool:
    """True unless the cell says that there is none for this variant."""
    return plain_text(cell).casefold() not in NONE and amount_of(cell, decimal) != 0
