"""What each bought thing of a quote really costs here, step by step, and sells for. Only the margin shows it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from quotes.calc.buying import Sold, markup
from quotes.calc.landed import MarkupMode
from quotes.calc.markup import BandShare, band_shares
from quotes.explaining.words import Step, cash, percent, unit_cash
from quotes.figures import Figures
from quotes.models import Line
from quotes.showing import money, plain
from shop.calc.rules import Rules
from shop.dates import date_only
from shop.models import Shop
from shop.words import say


@dataclass(frozen=True, slots=True)
class Bought:
    """`quantity` of one thing, of which `sold` tells cost and price of one."""

    title: str
    quantity: Decimal
    sold: Sold


@dataclass(frozen=True, slots=True)
class Group:
    """What was bought for one line of the quote, and the cost of the whole line."""

    key: str
    cost: Decimal | None
    things: tuple[Bought, ...]


def bought(found: Figures, shop: Shop) -> list[dict[str, Any]]:
    """Everything that is bought for a draft, at today's offers and rates."""
    rules = found.loaded.input.rules
    return [_shape(each, rules, shop) for group in _groups(found) for each in group.things]


def bought_when_sent(found: Figures | None, lines: Iterable[Line], rules: Rules, shop: Shop) -> list[dict[str, Any]]:
    """The same for a sent issue, from the figures at the offers and rates of the day it was sent.

    Where they no longer give the cost that was kept with a line, or nothing at all (None), that cost stands alone.
    """
    groups = {group.key: group for group in _groups(found)} if found else {}
    shapes: list[dict[str, Any]] = []
    for line in lines:
        if line.cost is None or line.kind not in (Line.Kind.KIT, Line.Kind.PART, Line.Kind.NEED):
            continue
        group = groups.get(f"need:{line.title}" if line.kind == Line.Kind.NEED else str(line.pk))
        if group and group.cost == line.cost:
            shapes += [_shape(each, rules, shop) for each in group.things]
        else:
            shapes.append(_cost_only(line, shop))
    return shapes


def _groups(found: Figures) -> Iterator[Group]:
    priced, one = found.priced, Decimal(1)
    for kit in priced.kits:
        if kit.sold:
            yield Group(kit.line, kit.cost, (Bought(kit.title, one, kit.sold),))
    for need in priced.needs:
        packs = tuple(Bought(pack.title, Decimal(pack.count), pack.sold) for pack in need.packs)
        if packs:
            yield Group(f"need:{need.title[:200]}", need.cost, packs)
    for extra in priced.extras:
        if extra.sold:
            yield Group(extra.line, extra.cost, (Bought(extra.title, extra.quantity, extra.sold),))


def _shape(bought: Bought, rules: Rules, shop: Shop) -> dict[str, Any]:
    """Amounts of one, in the shop's money."""
    line, buying, e = bought.sold.landed, bought.sold.buying, shop.exponent
    return {
        "title": bought.title,
        "quantity": plain(bought.quantity),
        "supplier": buying.supplier,
        "currency": buying.currency,
        "goods": money(line.value, e),
        "freight": money(line.freight, e),
        "duty": money(line.duty, e),
        "brokerage": money(line.brokerage, e),
        "landed": money(line.landed, e),
        "sells": money(line.sell_unit, e),
        "rate": plain(buying.rate) if buying.rate_date and buying.rate else None,
        "rate_date": buying.rate_date.isoformat() if buying.rate_date else None,
        "rate_age_days": buying.rate_days,
        "words": [say("bought.from", supplier=buying.supplier), *_rate_words(bought.sold)],
        "rule": [say("bought.rule.landed"), say(f"bought.rule.{rules.markup_mode}")],
        "how": [*_landed(bought.sold, rules, shop), *_sells(bought.sold, rules, e)],
    }


def _cost_only(line: Line, shop: Shop) -> dict[str, Any]:
    parts = ("supplier", "currency", "goods", "freight", "duty", "brokerage", "rate", "rate_date", "rate_age_days")
    return {
        **dict.fromkeys(parts),
        "title": line.title,
        "quantity": plain(line.quantity),
        "landed": money(line.cost or Decimal(0), shop.exponent),
        "sells": money(line.amount or Decimal(0), shop.exponent),
        "words": [say("bought.cost_only")],
        "rule": [say("bought.rule.landed")],
        "how": [],
    }


def _rate_words(sold: Sold) -> list[str]:
    buying = sold.buying
    if buying.rate_date is None:
        return []
    age = _age(buying.rate_date, buying.rate_days or 0)
    return [say("bought.rate", currency=buying.currency, rate=plain(buying.rate or Decimal(0)), age=age)]


def _age(day: date, days: int) -> str:
    return say("bought.age", date=date_only(day), n=days) if days else say("bought.age.today")


def _step(code: str, shown: str, **facts: object) -> Step:
    return {"words": say(f"bought.step.{code}", **facts), "figure": shown}


def _landed(sold: Sold, rules: Rules, shop: Shop) -> Iterator[Step]:
    line, buying, e = sold.landed, sold.buying, shop.exponent
    abroad = buying.rate_date is not None
    if abroad:
        yield _step("price", say("bought.amount", amount=unit_cash(buying.unit_cost, e), currency=buying.currency))
        rate = plain(buying.rate or Decimal(1))
        age = _age(buying.rate_date, buying.rate_days or 0) if buying.rate_date else ""
        yield _step("value", cash(line.value, e), home=shop.currency, currency=buying.currency, rate=rate, age=age)
    else:
        yield _step("price", cash(line.value, e))
    if line.freight:
        amount = say("bought.amount", amount=unit_cash(buying.freight, e), currency=buying.currency)
        yield (
            _step("freight_abroad", cash(line.freight, e), amount=amount)
            if abroad
            else _step("freight", cash(line.freight, e))
        )
    if line.duty:
        facts = {"percent": percent(buying.duty_rate), "base": cash(line.duty_base, e)}
        yield _step(f"duty_{rules.duty_base}", cash(line.duty, e), **facts)
    if line.brokerage:
        yield _step("brokerage", cash(line.brokerage, e))
    yield _step("landed", cash(line.landed, e))


def _sells(sold: Sold, rules: Rules, e: int) -> Iterator[Step]:
    house = markup(rules)
    for share in band_shares(sold.cost, house):
        yield _band(share, house.mode, e)
        if share.floor is not None:
            yield _step("floor", cash(share.floor, e))
    yield _step("sells", cash(sold.price, e))


def _band(share: BandShare, mode: MarkupMode, e: int) -> Step:
    facts = {"cost": cash(share.cost, e), "x": plain(share.multiplier), "bottom": cash(share.bottom, e)}
    shown = cash(share.cost * share.multiplier, e)
    if mode is MarkupMode.FLOORED:
        return _step("whole", shown, **facts)
    if not share.bottom:
        return _step("first", shown, **facts)
    return _step("above", shown, **facts)
