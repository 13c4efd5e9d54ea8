"""The surcharge on what the customer brings, as lines of the quote (the calculation itself: `supplied.py`)."""

from collections.abc import Iterator

from quotes.calc.priced import PricedFee
from quotes.calc.priced_labour import QuoteLabour
from quotes.calc.quote_input import QuoteInput
from quotes.calc.supplied import FittingWork, surcharge_supplied
from shop.calc.reason import Reason

SUPPLIED = "supplied"  # the first word of the key; the rest is the skill


def price_supplied(quote: QuoteInput, labour: QuoteLabour) -> Iterator[PricedFee]:
    """One surcharge for each skill, worked out after section 1.

    It covers all operations of a kit, and adds no time to the plan.
    """
    share = quote.rules.supplied_share
    work = [FittingWork(done.code, done.skill, done.hours) for done in labour.operations]
    fitting = {extra.fitted_by for extra in quote.extras if extra.supplied and extra.fitted_by}
    brought = {kit.letter for kit in quote.kits if kit.supplied}
    fitting |= {done.code for done in labour.operations if brought.intersection(done.kits)}
    rates = {skill.skill: skill.rate for skill in labour.skills}
    for surcharge in surcharge_supplied(work, fitting, share, rates, quote.exponent):
        yield PricedFee(
            key=f"{SUPPLIED}:{surcharge.skill}",
            title="",
            quantity=surcharge.hours,
            amount=surcharge.rate,
            price=surcharge.price,
            tax_class=quote.rules.labour_class(surcharge.skill),
            reasons=(Reason.of("supplied_share", percent=share * 100, hours=surcharge.fitting_hours),),
        )
