"""Separates part numbers that share their cell with the description or with another number."""

import re
from dataclasses import replace

from shop.tables.findings import Finding, done_for_you, facts_of, must_fix
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, Ruled, with_cell
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered

TOGETHER = re.compile(r"(?P<number>[A-Za-z0-9][\w./-]*)\s+(?P<title>[^\W\d][^\d].*)")
WORD = re.compile(r"[^\W\d_]*[a-zà-ÿ]{3}")
EITHER = re.compile(r"(?P<one>\S*[0-9]\S*)\s+(?:or|oder|ou|o|lub|nebo|eller|/)\s+(?P<other>\S*[0-9]\S*)", re.IGNORECASE)
FEWEST = 3  # rows that show the pattern


def with_titles_apart(block: Block, answers: Answers) -> Ruled:
    """Splits "8080-01 Socket screw" into number and description if the list has no column of descriptions.

    Does so without a question if every cell has this form and no number comes twice.
    """
    layout = block.table.layout
    title = layout.texts[0] if layout and layout.texts else ""
    if layout is None or not title or title in block.heading.found:
        return Ruled(block)
    matches = {n: _together(block.text(row, layout.number)) for n, row in enumerate(block.rows)}
    pairs = {n: match for n, match in matches.items() if match}
    if len(pairs) < FEWEST or len(pairs) * 2 < len(matches):
        return Ruled(block)
    numbers = [match["number"] for match in pairs.values()]
    settled = len(pairs) == len(matches) and len(set(numbers)) == len(numbers)
    first = next(iter(pairs.values()))
    at = block.at(None, layout.number)
    question = answered(
        FileQuestion(
            "one_cell",
            "one_cell",
            (
                AnswerChoice("apart", "one_cell_apart", facts_of(number=first["number"], title=first["title"][:60])),
                AnswerChoice("whole", "one_cell_whole", facts_of(number=first[0][:60])),
            ),
            "apart",
            facts_of(n=len(pairs), example=first[0][:60], column=at.column),
            block.sheet,
            at.column,
            needed=not settled,
        ),
        answers,
    )
    if question.value != "apart":
        return Ruled(block, (), (question,))
    width = max(len(row.line.cells) for row in block.rows)
    rows = [_apart(block, row, pairs.get(n), title, width) for n, row in enumerate(block.rows)]
    note = done_for_you("number_and_title_apart", at, n=len(pairs))
    return Ruled(replace(block, rows=tuple(rows)), (note,) if settled else (), (question,))


def _together(text: str) -> re.Match[str] | None:
    match = TOGETHER.fullmatch(text)
    apart = match and any(map(str.isdigit, match["number"])) and WORD.search(match["title"])
    return match if apart and not EITHER.fullmatch(text) else None


def _apart(block: Block, row: BlockRow, match: re.Match[str] | None, title: str, width: int) -> BlockRow:
    if match is None:
        return row
    layout = block.table.layout
    assert layout is not None
    line = with_cell(row.line, block.heading.found[layout.number], Cell(match["number"]))
    return replace(row, line=with_cell(line, width, Cell(match["title"])), columns={**row.columns, title: width})


def without_alternatives(block: Block) -> Ruled:
    """Refuses "9412-04 or 9412-14": a line is of one part, and a person says which."""
    layout = block.table.layout
    findings: list[Finding] = []
    for row in block.rows if layout else ():
        assert layout is not None
        if match := EITHER.fullmatch(block.text(row, layout.number)):
            at = block.at(row, layout.number)
            findings.append(must_fix("two_numbers", at, one=match["one"], other=match["other"]))
    return Ruled(block, tuple(findings))
