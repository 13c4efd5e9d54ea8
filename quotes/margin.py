"""What stays of a quote before tax, and how that is worked out. The one resource that shows costs."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from quotes import snapshots
from quotes.bought import bought, signed
from quotes.calc.pricing import margin_rate
from quotes.explaining.words import Step, cash, hour, less, unit_cash
from quotes.figures import Figures
from quotes.models import Line, Revision
from quotes.showing import money, plain
from shop.calc.rules import Rules
from shop.models import Shop
from shop.words import say

NOTHING = Decimal(0)
NOT_KEPT: dict[str, Any] = {"bought": [], "bought_sum": None}  # of an issue sent before it was
FREE = (Line.Kind.FEE, Line.Kind.SUPPLIES)  # sold, and reckoned to cost nothing


@dataclass(frozen=True, slots=True)
class Row:
    """What one line of the quote sells for and costs; None where nobody knows. `words` say what the cost is made of."""

    title: str
    words: str
    price: Decimal
    cost: Decimal | None


@dataclass(frozen=True, slots=True)
class Sum:
    """With tax and before it, and whether there are supplies or fees in it."""

    gross: Decimal
    net: Decimal
    free: bool


def margin_shape(found: Figures, shop: Shop) -> dict[str, Any]:
    """What stays of a draft, at today's costs."""
    priced, rules, e = found.priced, found.loaded.input.rules, shop.exponent
    rows = [
        *(_kit(kit.letter, kit.title, kit.price, kit.cost) for kit in priced.kits),
        *(_skill(each.skill, each.hours, each.price, each.cost, rules, e) for each in priced.skills),
        *(_need(shown, need.price, need.cost) for shown, need in zip(found.shown["needs"], priced.needs, strict=True)),
        *(_extra(each.title, each.quantity, each.price, each.cost) for each in priced.extras),
    ]
    whole = Sum(priced.totals.gross, priced.totals.net, bool(found.shown["fees"]))
    return _margin(rows, whole, rules, e) | bought(found, shop)


def sent_margin_shape(revision: Revision) -> dict[str, Any]:
    """What stays of a sent issue, at the costs of the day it was sent."""
    shop = revision.shop
    lines = list(Line.objects.filter(shop=shop, revision=revision).order_by("position"))
    rules = Rules.from_json(revision.rules.rules)
    rows = list(_kept_rows(lines, snapshots.read(revision)["shown"], rules, shop.exponent))
    free = any(line.kind in FREE for line in lines)
    whole = Sum(revision.gross or NOTHING, revision.net or NOTHING, free)
    return _margin(rows, whole, rules, shop.exponent) | (revision.bought or NOT_KEPT)


def _kept_rows(lines: Iterable[Line], shown: Mapping[str, Any], rules: Rules, e: int) -> Iterator[Row]:
    letters = {kit["line"]: kit["letter"] for kit in shown["kits"]}
    needs = iter(shown["needs"])  # the lines were written in their order
    for line in lines:
        price = line.amount or NOTHING
        if line.kind == Line.Kind.KIT:
            yield _kit(letters[str(line.pk)], line.title, price, line.cost)
        elif line.kind == Line.Kind.LABOUR:
            yield _skill(line.title, line.quantity, price, line.cost, rules, e)
        elif line.kind == Line.Kind.NEED:
            yield _need(next(needs), price, line.cost)
        elif line.kind not in FREE:
            yield _extra(line.title, line.quantity, price, line.cost)


def _kit(letter: str, title: str, price: Decimal, cost: Decimal | None) -> Row:
    return Row(title, say("margin.how.kit", letter=letter, title=title), price, cost)


def _skill(skill: str, hours: Decimal, price: Decimal, cost: Decimal | None, rules: Rules, e: int) -> Row:
    title, each = say("margin.labour", skill=skill), rules.labour_costs.get(skill)
    if each is None:
        return Row(title, title, price, cost)
    return Row(title, say("margin.how.labour", skill=skill, hours=hour(hours), each=unit_cash(each, e)), price, cost)


def _need(shown: Mapping[str, Any], price: Decimal, cost: Decimal | None) -> Row:
    packs = " + ".join(say("margin.how.pack", n=pack["count"], title=pack["title"]) for pack in shown["packs"])
    words = say(f"margin.how.charge_{shown['charge']}", packs=packs) if packs else shown["title"]
    return Row(shown["title"], words, price, cost)


def _extra(title: str, quantity: Decimal, price: Decimal, cost: Decimal | None) -> Row:
    words = title if quantity == 1 else say("margin.how.pack", n=plain(quantity), title=title)
    return Row(title, words, price, cost)


def _margin(rows: Sequence[Row], whole: Sum, rules: Rules, e: int) -> dict[str, Any]:
    net, floor = whole.net, rules.margin_floor
    cost = _cost(rows)
    rate = margin_rate(net, cost)
    unknown = "; ".join(row.title for row in rows if row.cost is None and row.price)
    return {
        "revenue": money(net, e),
        "cost": money(cost, e),
        "profit": money(net - cost, e),
        "rate": None if rate is None else f"{rate:.4f}",
        "floor": None if floor is None else plain(floor),
        "below": rate is not None and floor is not None and rate < floor,
        "words": [say("margin.unknown", titles=unknown)] if unknown else [],
        "how": {
            "title": say("margin.how.title"),
            "rule": list(_rule(rows, whole)),
            "steps": list(_steps(rows, whole, rate, rules, e)),
            "result": say("margin.how.rate", percent=f"{rate * 100:.2f}") if rate is not None else "\u2013",
        },
    }


def _cost(rows: Iterable[Row]) -> Decimal:
    return sum((row.cost for row in rows if row.cost is not None), NOTHING)


def _rule(rows: Iterable[Row], whole: Sum) -> Iterator[str]:
    yield say("margin.how.rule")
    if whole.free:
        yield say("margin.how.free")
    if any(row.cost is None and row.price for row in rows):
        yield say("margin.how.rule_unknown")


def _steps(rows: Sequence[Row], whole: Sum, rate: Decimal | None, rules: Rules, e: int) -> Iterator[Step]:
    if rules.prices_include_tax:
        yield _step("gross", cash(whole.gross, e))
        yield _step("tax", less(cash(whole.gross - whole.net, e)))
    yield _step("net", cash(whole.net, e))
    for row in rows:
        if row.cost is not None:
            yield {"words": row.words, "figure": less(cash(row.cost, e))}
        elif row.price:
            yield {"words": row.words, "figure": say("margin.how.unknown")}
    profit = signed(whole.net - _cost(rows), e)
    yield _step("profit", profit)
    if rate is not None:
        yield _step("share", say("margin.how.rate", percent=f"{rate * 100:.2f}"), profit=profit, net=cash(whole.net, e))


def _step(code: str, shown: str, **facts: object) -> Step:
    return {"words": say(f"margin.how.{code}", **facts), "figure": shown}
