"""The margin of a quote before tax, with its explanation. The only answer that shows costs."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from msgspec.structs import replace

from quotes.answers.figures import QuotedNeedOut, ShownOut
from quotes.answers.margin import BoughtOut, BoughtSumOut, MarginOut
from quotes.calc.forms import FrozenContent
from quotes.calc.margin import NOTHING, KnownMargin, MarginLine, QuoteTotals, known_margin, quote_totals, whole_rate
from quotes.models import Line, Revision
from quotes.presenters.explanations.words import cash, hour, less, unit_cash
from quotes.presenters.figures import figures_answer, kept_figures
from quotes.presenters.landed_cost import bought, signed
from quotes.presenters.undecided import stated_words
from quotes.queries import frozen
from quotes.queries.choices import taken_lines
from quotes.queries.pricing import Figures, Possibility, QuoteFigures
from shop.answers.base import from_kept
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.calc.money import rounded
from shop.calc.quantity import money, plain
from shop.calc.rules import Rules
from shop.models import Shop
from shop.words import say
from shop.words.figures import figure, listed, number

FURTHER = "further"  # among what is kept with a revision: the margins of its further prices
BoughtAndSum = tuple[list[BoughtOut], BoughtSumOut | None]
FREE = (Line.Kind.FEE, Line.Kind.SUPPLIES)  # sold, and counted at no cost


@dataclass(frozen=True, slots=True)
class Row(MarginLine):
    """A line with its name; `words` describe its cost."""

    title: str
    words: str


def margin_answer(figures: Figures, shop: Shop) -> MarginOut:
    """The margin of a draft, at today's costs."""
    priced, rules, e = figures.priced, figures.loaded.input.rules, shop.exponent
    classes = {kit.line: kit.tax_class for kit in figures.loaded.input.kits}
    needs = zip(figures_answer(figures).needs, priced.needs, strict=True)
    rows = [
        *(_kit(kit.letter, kit.title, kit.price, classes[kit.line], kit.cost) for kit in priced.kits),
        *(_skill(item.skill, item.hours, item.price, item.cost, rules, e) for item in priced.skills),
        *(_need(answer, need.price, need.tax_class, need.cost) for answer, need in needs),
        *(_outside(item.title, item.price, item.tax_class, item.cost) for item in priced.outside),
        *(_extra(item.title, item.quantity, item.price, item.tax_class, item.cost) for item in priced.extras),
        *(_taken(item.title, -item.amount, item.tax_class) for item in priced.taken),
    ]
    return _margin(rows, quote_totals(priced), bought(figures, shop), rules, e)


def draft_margin(figures: QuoteFigures, shop: Shop) -> MarginOut:
    """The margin of a draft's lowest price; `prices` has the margins of all prices, or of both ends of a range.

    `below` is also true if a single price that the customer may choose is below the floor.
    """
    floor = figures.loaded.input.rules.margin_floor
    prices = [
        _price_words(words, whole_rate(price.loaded.input, price.priced), floor)
        for words, price in _named_prices(figures)
    ]
    return replace(margin_answer(figures, shop), below=figures.below_floor, prices=prices)


def _named_prices(figures: QuoteFigures) -> list[tuple[str, Possibility]]:
    """All prices with names; the lowest and the highest if there are too many; empty for a single price."""
    if not figures.open:
        return []
    if figures.offered:
        return [(stated_words(price.stated, figures.open), price) for price in figures.as_proposed]
    return [(say("margin.lowest"), figures.possible[0]), (say("margin.highest"), figures.dearest)]


def _price_words(words: str, rate: Decimal | None, floor: Decimal | None) -> str:
    """'automatic: 28.4 %'"""
    percent = _percent_of(rate, floor)
    return say("margin.price" if percent else "margin.price_unknown", words=words, percent=percent)


def _percent_of(rate: Decimal | None, floor: Decimal | None) -> str | None:
    """A margin with one decimal; with two if one would hide that it is below the floor."""
    if rate is None:
        return None
    hides = floor is not None and rate < floor <= rounded(rate, 3)
    return figure(f"{rounded(rate * 100, 2 if hides else 1)}")


def _floor_percent(floor: Decimal | None) -> str | None:
    return None if floor is None else number(floor * 100)


def sent_margin(revision: Revision) -> MarginOut:
    """The margin of a sent revision at the costs as of sending, for the accepted price, else for the first."""
    shop, costs = revision.shop, revision.bought
    further = costs.get(FURTHER, [])
    if revision.combination:
        return kept_margin(further[revision.combination - 1], Rules.from_json(revision.rules.rules).margin_floor)
    rules = Rules.from_json(revision.rules.rules)
    document = frozen.read(revision)
    lines = list(taken_lines(revision, frozen.selection_of(document)))
    rows = [*_kept_rows(lines, kept_figures(document), rules, shop.exponent), *_kept_taken(document)]
    free = any(line.kind in FREE for line in lines)
    allowances = {entry["tax_class"]: Decimal(entry["amount"]) for entry in document["inputs"]["allowances"]}
    total = QuoteTotals(revision.gross or NOTHING, revision.net or NOTHING, free, allowances)
    margin = _margin(rows, total, _kept_bought(costs), rules, shop.exponent)
    if revision.state == Revision.State.ACCEPTED or not further:
        return margin
    rates = [_rate(rate) for rate in (margin.rate, *(stored["rate"] for stored in further))]
    prices = [
        (price["words"], rate)
        for price, rate in zip(document["possible"], rates, strict=True)
        if price["stated"] and price["selection"] == document["possible"][0]["selection"]
    ]
    return replace(margin, prices=[_price_words(title, rate, rules.margin_floor) for title, rate in prices])


def kept_margin(stored: FrozenContent, floor: Decimal | None) -> MarginOut:
    """A margin stored on sending, with its percentages, which older records lack."""
    percents = {"percent": _percent_of(_rate(stored["rate"]), floor), "floor_percent": _floor_percent(floor)}
    return from_kept({**stored, **percents, "prices": []}, MarginOut)


def _kept_bought(costs: FrozenContent) -> BoughtAndSum:
    """The stored items that were bought; empty for a revision without this record."""
    together = costs.get("bought_sum")
    return (
        [from_kept(item, BoughtOut) for item in costs.get("bought", ())],
        from_kept(together, BoughtSumOut) if together else None,
    )


def _rate(rate: str | None) -> Decimal | None:
    return None if rate is None else Decimal(rate)


def _kept_rows(lines: Iterable[Line], content: ShownOut, rules: Rules, e: int) -> Iterator[Row]:
    letters = {kit.line: kit.letter for kit in content.kits}
    firms = {work.line: work.name for work in content.outside}
    needs = iter(content.needs)  # the lines were written in their order
    for line in lines:
        price = line.amount or NOTHING
        if line.kind == Line.Kind.KIT:
            yield _kit(letters[str(line.pk)], line.title, price, line.tax_class, line.cost)
        elif line.kind == Line.Kind.LABOUR:
            yield _skill(line.title, line.quantity, price, line.cost, rules, e)
        elif line.kind == Line.Kind.NEED:
            yield _need(next(needs), price, line.tax_class, line.cost)
        elif line.kind == Line.Kind.OUTSIDE:
            yield _outside(firms[str(line.pk)], price, line.tax_class, line.cost)
        elif line.kind not in FREE:
            yield _extra(line.title, line.quantity, price, line.tax_class, line.cost)


def _kept_taken(document: FrozenContent) -> Iterator[Row]:
    """The items that a change takes off its job."""
    classes = {line["id"]: line["tax_class"] for line in document["inputs"]["lines"]}
    for taken in document["shown"].get("taken", ()):
        key = f"taken:{taken['source']}:{taken['item']}"
        yield _taken(taken["title"], Decimal(taken["price"]), classes[key])


def _kit(letter: str, title: str, price: Decimal, tax_class: str, cost: Decimal | None) -> Row:
    return Row(price, tax_class, cost, title, say("margin.how.kit", letter=letter, title=title))


def _skill(skill: str, hours: Decimal, price: Decimal, cost: Decimal | None, rules: Rules, e: int) -> Row:
    title, hourly_cost = say("margin.labour", skill=skill), rules.labour_costs.get(skill)
    words = title
    if hourly_cost is not None:
        words = say("margin.how.labour", skill=skill, hours=hour(hours), each=unit_cash(hourly_cost, e))
    return Row(price, rules.labour_class(skill), cost, title, words)


def _need(answer: QuotedNeedOut, price: Decimal, tax_class: str, cost: Decimal | None) -> Row:
    packs = " + ".join(say("margin.how.pack", n=pack.count, title=pack.title) for pack in answer.packs)
    words = say(f"margin.how.charge_{answer.charge}", packs=packs) if packs else answer.title
    return Row(price, tax_class, cost, answer.title, words)


def _outside(title: str, price: Decimal, tax_class: str, cost: Decimal | None) -> Row:
    return Row(price, tax_class, cost, title, say("margin.how.outside", title=title))


def _extra(title: str, quantity: Decimal, price: Decimal, tax_class: str, cost: Decimal | None) -> Row:
    words = title if quantity == 1 else say("margin.how.pack", n=number(quantity), title=title)
    return Row(price, tax_class, cost, title, words)


def _taken(title: str, price: Decimal, tax_class: str) -> Row:
    """Something that a change takes off. The cost that it saves is not known."""
    return Row(price, tax_class, None, title, title)


def _margin(rows: Sequence[Row], whole: QuoteTotals, bought: BoughtAndSum, rules: Rules, e: int) -> MarginOut:
    """The margin. If a cost is unknown the quote has no margin: profit and floor are those of the other lines."""
    floor, known_costs = rules.margin_floor, known_margin(rows, whole, rules, e)
    rate, unknown = known_costs.rate, [row.title for row in rows if row.unknown]
    return MarginOut(
        revenue=money(whole.net, e),
        cost=money(known_costs.cost, e),
        profit=money(known_costs.profit, e),
        rate=None if rate is None or unknown else f"{rate:.4f}",
        percent=_percent_of(None if unknown else rate, floor),
        floor_percent=_floor_percent(floor),
        prices=[],
        floor=None if floor is None else plain(floor),
        below=rate is not None and floor is not None and rate < floor,
        words=_unknown_words(unknown, rate),
        bought=bought[0],
        bought_sum=bought[1],
        how=ExplainedOut(
            title=say("margin.how.title"),
            rule=list(_rule(rows, whole)),
            steps=list(_steps(rows, whole, known_costs, rules, e)),
            result=_result(rate, unknown),
        ),
    )


def _unknown_words(titles: Sequence[str], rate: Decimal | None) -> list[str]:
    if not titles:
        return []
    words = say("margin.unknown", n=len(titles), titles=listed(titles))
    return [words, *([say("margin.without", n=len(titles), percent=_percent(rate))] if rate is not None else [])]


def _result(rate: Decimal | None, unknown: Sequence[str]) -> str:
    if unknown:
        return say("margin.how.unknown")
    return say("margin.how.rate", percent=_hundredths(rate)) if rate is not None else "\u2013"


def rate_words(margin: MarginOut) -> str | None:
    """'30.4 %'; None if the quote has no margin."""
    return None if margin.percent is None else say("margin.how.rate", percent=margin.percent)


def _percent(rate: Decimal) -> str:
    return figure(f"{rounded(rate * 100, 1)}")


def _hundredths(rate: Decimal) -> str:
    return figure(f"{rounded(rate * 100, 2)}")


def _rule(rows: Iterable[Row], whole: QuoteTotals) -> Iterator[str]:
    yield say("margin.how.rule")
    if whole.free:
        yield say("margin.how.free")
    if whole.allowances:
        yield say("margin.how.discount")
    if any(row.unknown for row in rows):
        yield say("margin.how.rule_unknown")


def _steps(rows: Sequence[Row], whole: QuoteTotals, margin: KnownMargin, rules: Rules, e: int) -> Iterator[HowStepOut]:
    if rules.prices_include_tax:
        yield _step("gross", cash(whole.gross, e))
        yield _step("tax", less(cash(whole.gross - whole.net, e)))
    yield _step("net", cash(whole.net, e))
    for row in rows:
        if row.cost is not None:
            yield HowStepOut(row.words, less(cash(row.cost, e)))
        elif row.price:
            yield HowStepOut(row.words, say("margin.how.unknown"))
    if margin.left_out:
        yield _step("left_out", less(cash(margin.left_out, e)))
    profit = signed(margin.profit, e)
    yield _step("profit", profit)
    if margin.rate is not None:
        share = say("margin.how.rate", percent=_hundredths(margin.rate))
        yield _step("share", share, profit=profit, net=cash(margin.net, e))


def _step(code: str, figure: str, **facts: object) -> HowStepOut:
    return HowStepOut(say(f"margin.how.{code}", **facts), figure)
