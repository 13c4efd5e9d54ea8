"""The costs stored with a sent revision, for its margin. Customers and technicians never see them."""

from typing import cast

from msgspec import to_builtins

from quotes.calc.forms import FrozenContent
from quotes.presenters.landed_cost import bought
from quotes.presenters.margin import FURTHER, margin_answer
from quotes.queries.pricing import QuoteFigures
from shop.models import Shop


def frozen_costs(figures: QuoteFigures, shop: Shop) -> FrozenContent:
    """The cost of each item bought, and the margins of all prices but the first, whose lines are rows."""
    things, together = bought(figures, shop)
    further = [margin_answer(prices, shop) for prices in figures.further]
    costs = {"bought": things, "bought_sum": together, FURTHER: further}
    return cast(FrozenContent, to_builtins(costs))
