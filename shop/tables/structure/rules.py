"""The rules in their order. Each takes the block as the one before it left it."""

from shop.tables.findings import Finding
from shop.tables.structure.blocks import Block, Ruled
from shop.tables.structure.dates import without_dates
from shop.tables.structure.decimals import with_decimals
from shop.tables.structure.fill_down import filled_down
from shop.tables.structure.quantity_columns import with_quantities
from shop.tables.structure.questions import Answers, FileQuestion
from shop.tables.structure.sections import with_sections
from shop.tables.structure.successors import successors_in_words
from shop.tables.structure.totals import without_sums
from shop.tables.structure.variants import conditions_in_words
from shop.tables.structure.zeros import with_zeros


def ruled(block: Block, answers: Answers) -> Ruled:
    """The block as all rules leave it, with everything that they did and ask."""
    findings: list[Finding] = []
    questions: list[FileQuestion] = []
    for rule in (
        without_sums,
        lambda block: with_decimals(block, answers),
        lambda block: with_sections(block, answers),
        lambda block: filled_down(block, answers),
        without_dates,
        lambda block: with_zeros(block, answers),
        lambda block: with_quantities(block, answers),
        conditions_in_words,
        successors_in_words,
    ):
        outcome = rule(block)
        block = outcome.block
        findings += outcome.findings
        questions += outcome.questions
    return Ruled(block, tuple(findings), tuple(questions))
