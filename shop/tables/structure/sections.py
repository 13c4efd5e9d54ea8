"""Headings between the lines: a variant of the vehicle, a bag, a carton, or only a heading."""

from collections.abc import Mapping
from dataclasses import replace

from shop.calc.when import KNOWN_VALUES
from shop.tables.columns import folded
from shop.tables.conditions import Condition, attribute_name
from shop.tables.findings import Finding, done_for_you, facts_of, please_check
from shop.tables.structure.blocks import Block, BlockRow, Ruled, some
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered
from shop.tables.structure.variants import Guess, condition_in

CHOICES = ("bag", "carton", "none")


def with_sections(block: Block, answers: Answers) -> Ruled:
    """Applies the meaning of each heading to the lines under it: a condition, a place, or nothing."""
    layout = block.table.layout
    if layout is None or not any(row.section for row in block.rows):
        return Ruled(block)
    variants = _variants(block, answers)
    rest = _plain(variants.block, answers)
    return Ruled(rest.block, (*variants.findings, *rest.findings), (*variants.questions, *rest.questions))


def _variants(block: Block, answers: Answers) -> Ruled:
    """Reads headings such as "Automatic gearbox only" as conditions of the lines under them.

    It asks once, unless the headings are opposites with bags of their own, which leave no other reading.
    """
    guesses = {row.section: condition_in(row.section) for row in block.rows if row.section}
    named = {section: guess for section, guess in guesses.items() if guess is not None}
    if not named:
        return Ruled(block)
    section = next(iter(named))
    count = sum(row.section in named for row in block.rows)
    settled = _opposite(guesses) and _own_places(block)
    question = answered(
        FileQuestion(
            "variants",
            "variants",
            (AnswerChoice("condition", "variants_condition"), AnswerChoice("none", "variants_none")),
            "condition",
            facts_of(n=count, what=section, row=next(row.section_row for row in block.rows if row.section == section)),
            block.sheet,
            needed=not settled,
        ),
        answers,
    )
    rows: list[BlockRow] = []
    notes: list[Finding] = []
    for row in block.rows:
        guess = named.get(row.section)
        if guess is None:
            rows.append(row)
            continue
        conditions = _conditions(guess) if question.value == "condition" else ()
        rows.append(replace(row, section="", when=(*row.when, *conditions)))
        if question.value == "condition" and not question.open and not conditions:
            at = block.at(row, block.table.layout.number if block.table.layout else "")
            notes.append(please_check("condition_in_words", at, words=guess.words, proposal="none"))
    if settled and question.value == "condition":
        at = Finding("", "", (), block.sheet)
        headings = ", ".join(f"“{text}”" for text in named)
        notes.append(done_for_you("variants_by_heading", at, n=count, headings=headings))
    return Ruled(replace(block, rows=tuple(rows)), tuple(notes), (question,))


def _conditions(guess: Guess) -> tuple[Condition, ...]:
    """The conditions of a heading; its words are a variant where no attribute is known for them."""
    if guess.conditions or not guess.variant:
        return guess.conditions
    return ((attribute_name("variant"), (guess.variant,)),)


def _opposite(guesses: Mapping[str, Guess | None]) -> bool:
    """True if every heading is a condition and nothing else, and together they name all values of one attribute."""
    values: dict[str, set[str]] = {}
    for heading, guess in guesses.items():
        if guess is None or len(guess.conditions) != 1 or folded(guess.words) != folded(heading):
            return False
        attribute, names = guess.conditions[0]
        values.setdefault(attribute, set()).update(names)
    return all(names == set(KNOWN_VALUES.get(attribute, ())) for attribute, names in values.items())


def _own_places(block: Block) -> bool:
    """True if each heading begins a place of its own, so that each section ends where the next begins."""
    layout = block.table.layout
    if layout is None or not layout.places:
        return False
    begun: dict[int, set[tuple[str, ...]]] = {}
    for row in block.rows:
        names = [row.places.get(name, "") or block.text(row, name) for name in layout.places]
        if not names[-1] and row.section_row not in begun:
            return False
        if names[-1]:
            begun.setdefault(row.section_row, set()).add(tuple(names))
    return sum(map(len, begun.values())) == len(set().union(*begun.values()))


def _plain(block: Block, answers: Answers) -> Ruled:
    """Asks once what other headings are, unless the bags already stand elsewhere."""
    layout = block.table.layout
    assert layout is not None
    rows = [row for row in block.rows if row.section]
    if not rows:
        return Ruled(block)
    inner = layout.places[-1] if layout.places else ""
    placed = [row for row in rows if inner and (row.places.get(inner) or block.text(row, inner))]
    headings = list(dict.fromkeys(row.section_row for row in rows))
    if not inner or len(placed) * 2 > len(rows):
        return Ruled(block, (_left_out(block, headings),))
    question = answered(
        FileQuestion(
            "sections",
            "sections",
            tuple(AnswerChoice(value, f"sections_{value}") for value in CHOICES if value in (*layout.places, "none")),
            "bag",
            facts_of(n=len(headings), what=rows[0].section, row=rows[0].section_row),
            block.sheet,
        ),
        answers,
    )
    if question.value == "none":
        return Ruled(block, (_left_out(block, headings),), (question,))
    return Ruled(replace(block, rows=tuple(_placed(block, row, question.value) for row in block.rows)), (), (question,))


def _placed(block: Block, row: BlockRow, name: str) -> BlockRow:
    if not row.section or row.places.get(name) or block.text(row, name):
        return row
    return replace(row, places={**row.places, name: row.section[:80]})


def _left_out(block: Block, rows: list[int]) -> Finding:
    return done_for_you("sections_left_out", Finding("", "", (), block.sheet), n=len(rows), rows=some(rows))
