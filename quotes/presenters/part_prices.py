"""Today's selling prices of parts, as a new quote would charge them. For advisors and managers only."""

from collections.abc import Sequence
from datetime import datetime
from uuid import UUID

from kitting.models import Part
from quotes.calc.buying import price_unit
from quotes.queries.pricing import shop_day
from quotes.queries.rows import buying_of
from shop.access import rules_on
from shop.calc.quantity import money
from shop.calc.rules import Rules
from shop.models import Shop


def part_prices(shop: Shop, parts: Sequence[Part], now: datetime) -> dict[UUID, str]:
    """{part: unit selling price}, without parts that lack an offer, a rate or rules. At most three queries."""
    day = shop_day(shop, now)
    row = rules_on(shop, day) if parts else None
    if row is None:
        return {}
    rules = Rules.from_json(row.rules)
    sales = {part: price_unit(buying, rules, shop.exponent) for part, buying in buying_of(shop, parts, day).items()}
    return {part: money(sale.price, shop.exponent) for part, sale in sales.items() if sale}
