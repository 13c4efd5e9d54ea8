"""The costs that are kept with a sent revision, for its margin. Customers and technicians never get them."""

from typing import Any, cast

from msgspec import to_builtins

from quotes.presenters.landed_cost import bought
from quotes.presenters.margin import FURTHER, margin_answer
from quotes.queries.pricing import QuoteFigures
from shop.models import Shop


def frozen_costs(found: QuoteFigures, shop: Shop) -> dict[str, Any]:
    """The cost of each thing bought, and the margin of every price but the first, whose lines are rows."""
    things, together = bought(found, shop)
    further = [margin_answer(each, shop) for each in found.further] if found.open else []
    kept = {"bought": things, "bought_sum": together, FURTHER: further}
    return cast(dict[str, Any], to_builtins(kept))
