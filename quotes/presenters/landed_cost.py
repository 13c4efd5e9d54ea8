"""Landed cost, selling price and profit of each item bought for a quote, step by step. Only the margin shows them.

Costs are always compared with prices before tax.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quotes.answers.margin import BoughtOut, BoughtSumOut
from quotes.calc.buying import UnitPricing, markup
from quotes.calc.landed import MarkupMode
from quotes.calc.markup import BandShare, band_shares
from quotes.calc.pricing import before_tax
from quotes.presenters.explanations.words import cash, less, percent, unit_cash
from quotes.queries.pricing import Figures
from shop.answers.explained import HowStepOut
from shop.calc.money import allocate
from shop.calc.quantity import money, plain
from shop.calc.rules import Rules
from shop.models import Shop
from shop.presenters.dates import date_only
from shop.words import say
from shop.words.figures import number


@dataclass(frozen=True, slots=True)
class Bought:
    """An item that is bought, in `quantity`; `sold` holds cost and price of one."""

    title: str
    quantity: Decimal
    sold: UnitPricing


@dataclass(frozen=True, slots=True)
class Group:
    """The items bought for one line of the quote, with the cost and the charge of the whole line."""

    cost: Decimal
    charged: Decimal
    tax_class: str
    things: tuple[Bought, ...]


@dataclass(frozen=True, slots=True)
class Left:
    """Cost, charge and profit of an item's whole quantity. `charged` includes tax if prices do, `net` does not."""

    cost: Decimal
    charged: Decimal
    net: Decimal

    @property
    def profit(self) -> Decimal:
        return self.net - self.cost


def bought(figures: Figures, shop: Shop) -> tuple[list[BoughtOut], BoughtSumOut | None]:
    """(items bought for a quote at the offers and rates of its figures, their sum or None without items).

    Sending stores it with the revision, separately from the frozen text, which holds no cost.
    """
    rules, e = figures.loaded.input.rules, shop.exponent
    answers = [pair for group in _groups(figures) for pair in _answers(group, rules, shop)]
    together = BoughtSumOut(
        cost=money(sum((left.cost for _, left in answers), Decimal(0)), e),
        net=money(sum((left.net for _, left in answers), Decimal(0)), e),
        profit=money(sum((left.profit for _, left in answers), Decimal(0)), e),
    )
    return [answer for answer, _ in answers], together if answers else None


def _groups(figures: Figures) -> Iterator[Group]:
    priced, single = figures.priced, Decimal(1)
    classes = {kit.line: kit.tax_class for kit in figures.loaded.input.kits}
    for kit in priced.kits:
        if kit.sold and kit.cost is not None:
            yield Group(kit.cost, kit.price, classes[kit.line], (Bought(kit.title, single, kit.sold),))
    for need in priced.needs:
        packs = tuple(Bought(pack.title, Decimal(pack.count), pack.sold) for pack in need.packs)
        if packs and need.cost is not None:
            yield Group(need.cost, need.price, need.tax_class, packs)
    for extra in priced.extras:
        if extra.sold and extra.cost is not None:
            things = (Bought(extra.title, extra.quantity, extra.sold),)
            yield Group(extra.cost, extra.price, extra.tax_class, things)


def _answers(group: Group, rules: Rules, shop: Shop) -> Iterator[tuple[BoughtOut, Left]]:
    """The items of a line, which share its cost and its charge by largest remainder."""
    e, things = shop.exponent, group.things
    costs = allocate(group.cost, [item.sold.cost * item.quantity for item in things], e)
    charges = allocate(group.charged, [item.sold.price * item.quantity for item in things], e)
    for thing, cost, charged in zip(things, costs, charges, strict=True):
        left = Left(cost, charged, before_tax(charged, group.tax_class, rules, e))
        yield _answer(thing, left, group.tax_class, rules, shop), left


def _answer(bought: Bought, left: Left, tax_class: str, rules: Rules, shop: Shop) -> BoughtOut:
    """The answer for an item: amounts of one, in the shop's money; `cost`, `net` and `profit` of all."""
    line, buying, e = bought.sold.landed, bought.sold.buying, shop.exponent
    net = before_tax(bought.sold.price, tax_class, rules, e)
    return BoughtOut(
        title=bought.title,
        quantity=plain(bought.quantity),
        supplier=buying.supplier,
        currency=buying.currency,
        goods=money(line.value, e),
        freight=money(line.freight, e),
        duty=money(line.duty, e),
        brokerage=money(line.brokerage, e),
        landed=money(line.landed, e),
        sells=money(bought.sold.price, e),
        sells_net=money(net, e),
        cost=money(left.cost, e),
        net=money(left.net, e),
        profit=money(left.profit, e),
        says=[*_says(bought.sold.price, net, rules, e), *_leaves(bought, left, rules, e)],
        rate=plain(buying.rate) if buying.rate_date and buying.rate else None,
        rate_date=buying.rate_date,
        rate_age_days=buying.rate_days,
        words=[say("bought.from", supplier=buying.supplier), *_rate_words(bought.sold)],
        rule=[say("bought.rule.landed"), say(f"bought.rule.{rules.markup_mode}")],
        how=[
            *_landed(bought.sold, rules, shop),
            *_sells(bought.sold, rules, e),
            *_untaxed(bought.sold.price, net, rules, e),
            *_profit(bought, left, e),
        ],
    )


def _says(price: Decimal, net: Decimal, rules: Rules, e: int, word: str = "sells") -> list[str]:
    """The sentences on a price. A price that includes tax is followed by the price before tax."""
    key = f"bought.{word}_inside" if rules.prices_include_tax else f"bought.{word}"
    return [say(key, price=cash(price, e), net=cash(net, e))]


def _leaves(bought: Bought, left: Left, rules: Rules, e: int) -> Iterator[str]:
    if left.charged != bought.sold.price * bought.quantity:
        yield from (
            _says(left.charged, left.net, rules, e, "charged") if left.charged else [say("bought.charged_nothing")]
        )
    if bought.quantity == 1:
        yield say("bought.profit", profit=signed(left.profit, e))
    else:
        facts = {"quantity": number(bought.quantity), "cost": cash(left.cost, e), "net": cash(left.net, e)}
        yield say("bought.profit_of", profit=signed(left.profit, e), **facts)


def signed(amount: Decimal, e: int) -> str:
    return less(cash(-amount, e)) if amount < 0 else cash(amount, e)


def _untaxed(price: Decimal, net: Decimal, rules: Rules, e: int) -> Iterator[HowStepOut]:
    if rules.prices_include_tax:
        yield _step("tax", less(cash(price - net, e)))
        yield _step("net", cash(net, e))


def _profit(bought: Bought, left: Left, e: int) -> Iterator[HowStepOut]:
    """Steps from the charge of this quote to the profit."""
    quantity = number(bought.quantity)
    if bought.quantity != 1 or left.charged != bought.sold.price:
        yield _step("charged", cash(left.net, e), quantity=quantity)
    word = "less_cost" if bought.quantity == 1 else "less_cost_of"
    yield _step(word, less(cash(left.cost, e)), quantity=quantity)
    yield _step("profit", signed(left.profit, e))


def _rate_words(sold: UnitPricing) -> list[str]:
    buying = sold.buying
    if buying.rate_date is None:
        return []
    age = _age(buying.rate_date, buying.rate_days or 0)
    return [say("bought.rate", currency=buying.currency, rate=number(buying.rate or Decimal(0)), age=age)]


def _age(day: date, days: int) -> str:
    return say("bought.age", date=date_only(day), n=days) if days else say("bought.age.today")


def _step(code: str, figure: str, **facts: object) -> HowStepOut:
    return HowStepOut(say(f"bought.step.{code}", **facts), figure)


def _landed(sold: UnitPricing, rules: Rules, shop: Shop) -> Iterator[HowStepOut]:
    line, buying, e = sold.landed, sold.buying, shop.exponent
    abroad = buying.rate_date is not None
    if abroad:
        yield _step("price", say("bought.amount", amount=unit_cash(buying.unit_cost, e), currency=buying.currency))
        rate = number(buying.rate or Decimal(1))
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


def _sells(sold: UnitPricing, rules: Rules, e: int) -> Iterator[HowStepOut]:
    if sold.buying.sells is not None:
        yield _step("sells_own", cash(sold.price, e))
        return
    house = markup(rules)
    for share in band_shares(sold.cost, house):
        yield _band(share, house.mode, e)
        if share.floor is not None:
            yield _step("floor", cash(share.floor, e))
    if rules.price_step is not None and sold.price != sold.landed.sell_unit:
        yield _step("stepped", cash(sold.price, e), price=cash(sold.landed.sell_unit, e), step=plain(rules.price_step))
    yield _step("sells", cash(sold.price, e))


def _band(share: BandShare, mode: MarkupMode, e: int) -> HowStepOut:
    facts = {"cost": cash(share.cost, e), "x": number(share.multiplier), "bottom": cash(share.bottom, e)}
    charge = cash(share.cost * share.multiplier, e)
    if mode is MarkupMode.FLOORED:
        return _step("whole", charge, **facts)
    if not share.bottom:
        return _step("first", charge, **facts)
    return _step("above", charge, **facts)
