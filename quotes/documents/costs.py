"""The costs that are kept with a sent revision, for its margin. Customers and technicians never get them."""

from typing import Any

from quotes.presenters.landed_cost import bought
from quotes.presenters.margin import FURTHER, margin_shape
from quotes.queries.pricing import QuoteFigures
from shop.models import Shop


def frozen_costs(found: QuoteFigures, shop: Shop) -> dict[str, Any]:
    """The cost of each thing bought, and the margin of every price but the first, whose lines are rows."""
    further = [margin_shape(each, shop) for each in found.further] if found.open else []
    return bought(found, shop) | {FURTHER: further}
