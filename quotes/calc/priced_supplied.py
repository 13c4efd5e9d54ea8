"""The surcharge on parts that the customer brings: a share of the hours of the operations that fit them."""

from collections.abc import Iterator
from decimal import Decimal

from quotes.calc.priced import PricedFee
from quotes.calc.priced_labour import QuoteLabour
from quotes.calc.quote_input import QuoteInput
from shop.calc.money import rounded
from shop.calc.reason import Reason

SUPPLIED = "supplied"  # the first word of the key; the rest is the skill
NOTHING = Decimal(0)


def price_supplied(quote: QuoteInput, labour: QuoteLabour) -> Iterator[PricedFee]:
    """One surcharge a skill, after section 1: a share of the charged hours, rounded to 0.1, at the skill's rate.

    An operation counts once, however many parts of the customer's it fits. The plan takes no longer for it.
    """
    fitting = {extra.fitted_by for extra in quote.extras if extra.supplied and extra.fitted_by}
    for skill in labour.skills:
        hours = sum(
            (work.hours for work in labour.operations if work.skill == skill.skill and work.code in fitting), NOTHING
        )
        extra_hours = rounded(hours * quote.rules.supplied_share, 1)
        if extra_hours > 0:
            yield PricedFee(
                key=f"{SUPPLIED}:{skill.skill}",
                title="",
                quantity=extra_hours,
                amount=skill.rate,
                price=rounded(extra_hours * skill.rate, quote.exponent),
                tax_class=quote.rules.labour_class(skill.skill),
                reasons=(Reason.of("supplied_share", percent=quote.rules.supplied_share * 100, hours=hours),),
            )
