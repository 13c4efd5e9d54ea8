"""Fills down cartons and bags that stand only on the first line of their group."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import compress

from shop.tables.findings import Finding, done_for_you, facts_of
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, Ruled, with_cell
from shop.tables.structure.place_rows import place_of
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered


@dataclass(frozen=True, slots=True)
class _Pattern:
    """The filling of a column of places. `alone` counts values on one line only with empty cells under them."""

    empty: int = 0
    leading: int = 0
    groups: int = 0
    repeated: int = 0
    alone: int = 0

    def __add__(self, other: "_Pattern") -> "_Pattern":
        return _Pattern(
            self.empty + other.empty,
            self.leading + other.leading,
            self.groups + other.groups,
            self.repeated + other.repeated,
            self.alone + other.alone,
        )

    def reading(self, outer_once: bool) -> str:
        """`down` if each place stands once, `none` if each line has its own, `ask` if it could be either.

        Lines before the first place of their group leave it open, unless the place around stands once too
        (`outer_once`): then this file repeats a value by an empty cell.
        """
        if self.alone == 0:
            return "none"
        clear = self.repeated == 0 and (self.leading == 0 or outer_once) and self.empty >= self.groups
        return "down" if clear else "ask"


def without_place_words(block: Block) -> Ruled:
    """Leaves "1" of "Box 1" in a column of cartons where each cell begins with that word."""
    layout = block.table.layout
    findings: list[Finding] = []
    for depth, name in enumerate(layout.places if layout else ()):
        texts = [block.text(row, name) for row in block.rows] if name in block.heading.found else []
        labels = {text: place_of(text) for text in texts if text}
        if not labels or any(place is None or place.level != depth for place in labels.values()):
            continue
        index = block.heading.found[name]
        named = {text: Cell(place.label) for text, place in labels.items() if place is not None}
        rows = tuple(
            replace(row, line=with_cell(row.line, index, named[text])) if text else row
            for row, text in zip(block.rows, texts, strict=True)
        )
        block = replace(block, rows=rows)
        findings.append(done_for_you("place_words_left_out", block.at(None, name), what=next(iter(labels))))
    return Ruled(block, tuple(findings))


def filled_down(block: Block, answers: Answers) -> Ruled:
    """Fills the columns of places, outermost first: a carton, then the bags within each carton."""
    layout = block.table.layout
    findings: list[Finding] = []
    questions: list[FileQuestion] = []
    filled_columns: list[str] = []
    counts: set[int] = set()
    for depth, name in enumerate(layout.places if layout else ()):
        assert layout is not None
        outer = layout.places[:depth]
        texts = [block.text(row, name) for row in block.rows]
        doubtful = [bool(text) or not (row.gone or row.placed) for row, text in zip(block.rows, texts, strict=True)]
        if name not in block.heading.found or not any(texts) or all(compress(texts, doubtful)):
            continue
        groups = [tuple(row.places.get(o, "") + "/" + block.text(row, o) for o in outer) for row in block.rows]
        groups = [(*group, row.places.get(name, "")) for group, row in zip(groups, block.rows, strict=True)]
        pattern = _pattern_of(list(compress(texts, doubtful)), list(compress(groups, doubtful)))
        reading = pattern.reading(bool(outer) and outer[-1] in filled_columns)
        if reading == "ask":
            question = _question(block, name, pattern, answers)
            questions.append(question)
            reading = question.value
        if reading == "down":
            block, rows = _filled(block, name, texts, groups)
            counts.update(rows)
            filled_columns.append(name)
            if pattern.leading:
                findings.append(done_for_you(f"in_no_{name}", block.at(None, name), n=pattern.leading))
        elif not all(row.places.get(name) for row, text in zip(block.rows, texts, strict=True) if not text):
            findings.append(done_for_you(f"in_no_{name}", block.at(None, name), n=pattern.empty))
    if filled_columns:
        which = filled_columns[0] if len(filled_columns) == 1 else "both"
        findings.append(done_for_you("filled_down", block.at(None, filled_columns[0]), n=len(counts), which=which))
    return Ruled(block, tuple(findings), tuple(questions))


def _pattern_of(texts: Sequence[str], groups: Sequence[tuple[str, ...]]) -> _Pattern:
    pattern = _Pattern()
    start = 0
    for end in range(1, len(texts) + 1):
        if end == len(texts) or groups[end] != groups[start]:
            pattern += _pattern_of_group(texts[start:end])
            start = end
    return pattern


def _pattern_of_group(texts: Sequence[str]) -> _Pattern:
    empty = leading = groups = repeated = alone = 0
    run = 0  # lines in a row with the same value
    before = last = ""
    for text in texts:
        if not text:
            empty += 1
            leading += not last
            alone += before != "" and run == 1
            run = 0
        elif text == before:
            repeated += 1
            run += 1
        else:
            groups += text != last
            last = text
            run = 1
        before = text
    return _Pattern(empty, leading if groups else 0, groups, repeated, alone)


def _question(block: Block, name: str, pattern: _Pattern, answers: Answers) -> FileQuestion:
    at = block.at(None, name)
    choices = (AnswerChoice("down", "empty_down"), AnswerChoice("none", f"empty_none_{name}"))
    facts = facts_of(n=pattern.empty, column=at.column, heading=_heading(block, name))
    return answered(
        FileQuestion(f"empty:{name}", f"empty_{name}", choices, "down", facts, block.sheet, at.column), answers
    )


def _heading(block: Block, name: str) -> str:
    return next(column.heading for column in block.heading.columns if column.field == name)


def _filled(
    block: Block, name: str, texts: Sequence[str], groups: Sequence[tuple[str, ...]]
) -> tuple[Block, list[int]]:
    index = block.heading.found[name]
    rows: list[BlockRow] = []
    numbers = []
    value = Cell()
    group: tuple[str, ...] | None = None
    for row, text, of in zip(block.rows, texts, groups, strict=True):
        if of != group:
            value, group = Cell(), of
        if text:
            value = row.line.at(index)
        elif not value.empty:
            row = replace(row, line=with_cell(row.line, index, value), filled=row.filled | {name})
            numbers.append(row.line.number)
        rows.append(row)
    return replace(block, rows=tuple(rows)), numbers
