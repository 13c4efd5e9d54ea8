"""How the price of a kit or a loose part came about, and what taking a kit off really saves. Costs stand elsewhere."""

from collections.abc import Iterator, Mapping

from quotes.calc.buying import Sold
from quotes.calc.priced import PricedKit, PricedQuote, Saving
from quotes.calc.quote_input import QuoteInput
from quotes.explaining.words import Explained, Step, cash, explained, hour, put_in_place, sentences, step, unit_cash
from quotes.showing import plain, worded


def kits(given: QuoteInput, priced: PricedQuote, saved: Mapping[str, Saving]) -> Iterator[Explained]:
    e = given.exponent
    for kit in priced.kits:
        key = f"kit:{kit.line}"
        steps = [
            step(_source(kit.sold), cash(kit.computed, e)),
            *_bought(kit.sold, e),
            *put_in_place(given.overrides.get(key), cash(kit.computed, e), cash(kit.price, e)),
            *_saving(kit, priced, saved[kit.line], e),
        ]
        rule = sentences(_source(kit.sold), "saving")
        yield explained(key, kit.title, rule, steps, cash(kit.price, e))


def extras(given: QuoteInput, priced: PricedQuote) -> Iterator[Explained]:
    e = given.exponent
    for extra in priced.extras:
        offered = extra.sold is not None and extra.sold.price == extra.unit_price
        source = "from_bands" if offered else "own_price"
        steps = [
            step(source, unit_cash(extra.unit_price, e)),
            *(_bought(extra.sold, e) if offered else ()),
            step("times", cash(extra.price, e), quantity=plain(extra.quantity), each=unit_cash(extra.unit_price, e)),
        ]
        yield explained(f"extra:{extra.line}", extra.title, sentences(source, "times"), steps, cash(extra.price, e))


def _source(sold: Sold | None) -> str:
    return "from_bands" if sold else "own_price"


def _bought(sold: Sold | None, e: int) -> Iterator[Step]:
    """That it was bought in another currency, and how old that rate is; never the cost."""
    for sentence in worded(sold.reasons, e) if sold else ():
        yield {"words": sentence[0].upper() + sentence[1:], "figure": ""}


def _saving(kit: PricedKit, priced: PricedQuote, saving: Saving, e: int) -> Iterator[Step]:
    yield step("hours_with", hour(priced.hours))
    yield step("hours_without", hour(saving.left_hours))
    yield step("hours_saved", hour(saving.hours))
    yield step("hours_alone", hour(kit.alone_hours))
    if kit.alone_hours > saving.hours:
        yield step("hours_stay", hour(kit.alone_hours - saving.hours))
    yield step("gross_with", cash(priced.totals.gross, e))
    yield step("gross_without", cash(saving.left_amount, e))
    yield step("gross_saved", cash(saving.amount, e))
