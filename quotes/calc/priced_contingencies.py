"""The prices of what a quote charges only if it happens."""

from decimal import Decimal

from quotes.calc.buying import price_unit
from quotes.calc.contingency import TaxTerms, highest_charge, price_once
from quotes.calc.priced import PricedContingency
from quotes.calc.quote_input import Contingency, QuoteInput


def price_contingencies(quote: QuoteInput) -> tuple[PricedContingency, ...]:
    """Each line with its price once: labour at the rate of its skill, a part from its offer or at its own price."""
    rules = quote.rules
    terms = TaxTerms(
        taxes=tuple(named.tax for named in rules.taxes),
        rounding=rules.rounding,
        prices_include_tax=rules.prices_include_tax,
        exponent=quote.exponent,
    )
    return tuple(_priced(contingency, quote, terms) for contingency in quote.contingencies)


def _priced(contingency: Contingency, quote: QuoteInput, terms: TaxTerms) -> PricedContingency:
    rules = quote.rules
    sold = price_unit(contingency.buying, rules, quote.exponent) if contingency.buying else None
    unit_price, tax_class = contingency.unit_price, contingency.tax_class
    if contingency.skill:
        unit_price, tax_class = rules.labour_rates.get(contingency.skill), rules.labour_class(contingency.skill)
    elif unit_price is None and sold:
        unit_price = sold.price
    once = price_once(contingency.quantity, unit_price or Decimal(0), tax_class, terms)
    return PricedContingency(
        line=contingency.line,
        part=contingency.part,
        skill=contingency.skill,
        priced=unit_price is not None,
        event=contingency.event,
        title=contingency.title,
        quantity=contingency.quantity,
        unit_price=unit_price or Decimal(0),
        price=once.amount,
        tax=once.tax,
        cap=contingency.cap,
        highest=highest_charge(once, contingency.cap),
        tax_class=tax_class,
        sold=sold,
        because=contingency.because if contingency.unit_price is not None else "",
    )
