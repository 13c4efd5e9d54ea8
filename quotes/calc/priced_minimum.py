"""The minimum charge of a visit: hours of labour that are charged even if less is done."""

from quotes.calc.priced import PricedFee
from quotes.calc.priced_labour import QuoteLabour
from quotes.calc.quote_input import QuoteInput
from shop.calc.money import rounded
from shop.calc.reason import Reason

MINIMUM = "minimum"


def price_minimum(quote: QuoteInput, labour: QuoteLabour) -> PricedFee | None:
    """The hours up to the minimum, at the rate and in the tax class of the skill with most of the hours.

    None without labour (parts over the counter are no visit) and where the labour reaches the minimum.
    """
    least = quote.rules.minimum_hours
    if not 0 < labour.hours < least:
        return None
    main = max(labour.skills, key=lambda skill: skill.hours)  # the first listed of equals
    rest = least - labour.hours
    return PricedFee(
        key=MINIMUM,
        title="",
        quantity=rest,
        amount=main.rate,
        price=rounded(rest * main.rate, quote.exponent),
        tax_class=quote.rules.labour_class(main.skill),
        reasons=(Reason.of("minimum_charge", least=least, hours=labour.hours),),
    )
