"""The rules in their order. Each takes the block as the one before it left it."""

from shop.tables.findings import Finding
from shop.tables.structure.blocks import Block, Ruled
from shop.tables.structure.dates import without_dates
from shop.tables.structure.decimals import with_decimals
from shop.tables.structure.dittos import without_dittos
from shop.tables.structure.fill_down import filled_down, without_place_words
from shop.tables.structure.one_cell import with_titles_apart, without_alternatives
from shop.tables.structure.quantity_columns import with_quantities
from shop.tables.structure.questions import Answers, FileQuestion
from shop.tables.structure.sections import with_sections
from shop.tables.structure.successors import successors_in_words
from shop.tables.structure.totals import without_sums
from shop.tables.structure.unit_words import with_sets
from shop.tables.structure.variants import conditions_in_words
from shop.tables.structure.zeros import with_zeros


def ruled(block: Block, answers: Answers) -> Ruled:
    """The block after all rules, with their notes and questions."""
    findings: list[Finding] = []
    questions: list[FileQuestion] = []
    for rule in (
        without_sums,
        lambda block: with_decimals(block, answers),
        without_dittos,
        with_sets,
        lambda block: with_titles_apart(block, answers),
        without_alternatives,
        lambda block: with_sections(block, answers),
        without_place_words,
        lambda block: filled_down(block, answers),
        without_dates,
        lambda block: with_zeros(block, answers),
        lambda block: with_quantities(block, answers),
        conditions_in_words,
        lambda block: successors_in_words(block, answers),
    ):
        outcome = rule(block)
        block = outcome.block
        findings += outcome.findings
        questions += outcome.questions
    return Ruled(block, tuple(findings), tuple(questions))
