"""The lines that sending writes after the chosen ones: labour by skill, needs, fees and supplies."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from quotes.models import Line
from quotes.presenters.fee_titles import fee_title, supplies_title
from quotes.queries.pricing import Figures


@dataclass(frozen=True, slots=True)
class DerivedLine:
    """The columns of a line that the rules made."""

    kind: str
    title: str
    tax_class: str
    quantity: Decimal
    unit_price: Decimal
    amount: Decimal
    cost: Decimal | None


def derived_lines(figures: Figures) -> Iterator[DerivedLine]:
    """The derived lines in their order on the quote."""
    priced, rules = figures.priced, figures.loaded.input.rules
    for skill in priced.skills:
        kind, tax_class = Line.Kind.LABOUR, rules.labour_class(skill.skill)
        yield DerivedLine(kind, skill.skill, tax_class, skill.hours, skill.rate, skill.price, skill.cost)
    for need in priced.needs:
        yield _single(Line.Kind.NEED, need.title, need.tax_class, need.price, need.cost)
    for fee in priced.fees:
        yield _single(Line.Kind.FEE, fee_title(fee), fee.tax_class, fee.price, None)
    if rules.supplies and priced.totals.supplies:
        yield _single(Line.Kind.SUPPLIES, supplies_title(), rules.supplies.tax_class, priced.totals.supplies, None)


def _single(kind: str, title: str, tax_class: str, price: Decimal, cost: Decimal | None) -> DerivedLine:
    """A line of one."""
    return DerivedLine(kind, title[:200], tax_class, Decimal(1), price, price, cost)
