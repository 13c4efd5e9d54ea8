"""Explains fees, shop supplies, the discount, taxes and the total."""

from collections.abc import Iterator
from decimal import Decimal

from quotes.answers.how import HowOut
from quotes.calc.priced import PricedFee, PricedQuote
from quotes.calc.priced_minimum import MINIMUM
from quotes.calc.priced_supplied import SUPPLIED
from quotes.calc.quote_input import QuoteInput
from quotes.presenters.explanations.words import (
    amount_of,
    cash,
    explained,
    hour,
    less,
    percent,
    sentences,
    step,
    unit_cash,
)
from quotes.presenters.fee_titles import fee_title, supplies_title
from shop.answers.explained import HowStepOut
from shop.calc.document import Rounding, Supplies, TaxTotal
from shop.calc.rules import DRAINED, NamedTax
from shop.words import say
from shop.words.figures import listed, number


def fees(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    e = quote_input.exponent
    rules = {f"fee:{fee.code}": fee for fee in quote_input.rules.fees}
    for fee in priced.fees:
        if fee.key == MINIMUM:
            yield _minimum(fee, quote_input.rules.minimum_hours, e)
            continue
        if fee.key.startswith(SUPPLIED):
            yield _supplied(fee, e)
            continue
        rule, unit_price = rules[fee.key], unit_cash(fee.amount, e)
        code, litres = "fee_litre", step("fee_litres", amount_of(fee.quantity, "L"), family=rule.per)
        if rule.per == DRAINED:
            code, litres = "fee_drained", step("fee_litres_drained", amount_of(fee.quantity, "L"), of=rule.fluid)
        steps = [litres, step("fee_each", cash(fee.price, e), litres=number(fee.quantity), each=unit_price)]
        if rule.per == "quote":
            code, steps = "fee_once", [step("fee_once", cash(fee.price, e))]
        yield explained(fee.key, fee.title, sentences(code), steps, cash(fee.price, e))


def _minimum(fee: PricedFee, least: Decimal, e: int) -> HowOut:
    steps = [
        step("minimum_hours", hour(least)),
        step("minimum_charged", less(hour(least - fee.quantity))),
        step("minimum_each", cash(fee.price, e), hours=hour(fee.quantity), each=unit_cash(fee.amount, e)),
    ]
    return explained(fee.key, fee_title(fee), sentences("minimum"), steps, cash(fee.price, e))


def _supplied(fee: PricedFee, e: int) -> HowOut:
    steps = [
        step("supplied_of", hour(Decimal(str(fee.reasons[0].named["hours"])))),
        step("minimum_each", cash(fee.price, e), hours=hour(fee.quantity), each=unit_cash(fee.amount, e)),
    ]
    return explained(fee.key, fee_title(fee), sentences("supplied"), steps, cash(fee.price, e))


def supplies(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    rule, e = quote_input.rules.supplies, quote_input.exponent
    if rule is None or not priced.totals.supplies:
        return
    basis = _basis(rule, priced)
    together = sum(basis.values(), Decimal(0))
    steps = [step("supplies_of", cash(amount, e), tax_class=name) for name, amount in basis.items()]
    steps.append(
        step("supplies_share", cash(together * rule.rate, e), percent=percent(rule.rate), of=cash(together, e))
    )
    if rule.cap is not None:
        steps.append(step("supplies_cap", cash(rule.cap, e)))
    title = supplies_title()
    codes = ("supplies", "supplies_cap") if rule.cap is not None else ("supplies",)
    yield explained("supplies", title, sentences(*codes), steps, cash(priced.totals.supplies, e))


def _basis(rule: Supplies, priced: PricedQuote) -> dict[str, Decimal]:
    amounts = dict.fromkeys(rule.basis, Decimal(0))
    for line in priced.totals.lines:
        if line.tax_class in amounts:
            amounts[line.tax_class] += line.amount
    return amounts


def discount(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    agreed, e = priced.discount, quote_input.exponent
    if agreed is None:
        return
    steps = [step("discount_on", cash(agreed.base, e))]
    if agreed.agreed.percent is not None:
        of, share = cash(agreed.base, e), number(agreed.agreed.percent)
        steps.append(step("discount_percent", cash(agreed.amount, e), percent=share, of=of))
    shares = [] if len(agreed.allowances) < 2 else agreed.allowances
    steps += [
        step("discount_share", less(cash(allowance.amount, e)), tax_class=allowance.tax_class) for allowance in shares
    ]
    title, result = say("quote.discount"), less(cash(agreed.amount, e))
    yield explained("discount", title, sentences("discount", "discount_shared"), steps, result)


def taxes(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    named = {named_tax.tax.code: named_tax for named_tax in quote_input.rules.taxes}
    for total in priced.totals.taxes:
        rule = named[total.code]
        inside = quote_input.rules.prices_include_tax
        steps = _inside(total, rule, quote_input, priced) if inside else _on_top(total, rule, quote_input, priced)
        title = say("how.title.tax", title=rule.title, rate=percent(rule.tax.rate))
        key = f"tax:{total.code}"
        yield explained(key, title, _tax_rules(rule, quote_input), steps, cash(total.amount, quote_input.exponent))


def _tax_rules(tax: NamedTax, quote_input: QuoteInput) -> Iterator[str]:
    inside = quote_input.rules.prices_include_tax
    yield say("how.rule.tax_inside" if inside else "how.rule.tax")
    if tax.tax.on_top_of:
        titles = {named_tax.tax.code: named_tax.title for named_tax in quote_input.rules.taxes}
        yield say("how.rule.tax_on_top", titles=listed([titles[code] for code in tax.tax.on_top_of]))
    line = quote_input.rules.rounding is Rounding.LINE
    yield from sentences("tax_by_line" if line else ("tax_by_class" if inside else "tax_once"))


def _classes(tax: NamedTax, priced: PricedQuote) -> list[tuple[str, Decimal, Decimal]]:
    """(class, amount, tax inside it) of what the tax applies to on this quote."""
    named = [total for total in priced.totals.classes if total.tax_class in tax.tax.classes]
    return [(total.tax_class, total.amount, total.tax_inside) for total in named]


def _on_top(total: TaxTotal, tax: NamedTax, quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowStepOut]:
    e = quote_input.exponent
    classes = _classes(tax, priced)
    for name, amount, _ in classes:
        yield step("taxed", cash(amount, e), tax_class=name)
    below = total.taxable - sum((amount for _, amount, _ in classes), Decimal(0))
    if tax.tax.on_top_of:
        yield step("tax_below", cash(below, e))
    yield step("tax_rate", cash(total.amount, e), of=cash(total.taxable, e), percent=percent(tax.tax.rate))


def _inside(total: TaxTotal, tax: NamedTax, quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowStepOut]:
    e, rate = quote_input.exponent, percent(tax.tax.rate)
    for name, amount, inside in _classes(tax, priced):
        several = sum(name in named_tax.tax.classes for named_tax in quote_input.rules.taxes) > 1
        if several:
            yield step("taxed_inside", cash(inside, e), tax_class=name, amount=cash(amount, e))
        else:
            above = number(tax.tax.rate * 100 + 100)
            yield step("tax_inside", cash(inside, e), tax_class=name, amount=cash(amount, e), rate=rate, above=above)
    yield step("tax_share", cash(total.amount, e), net=cash(total.taxable, e), rate=rate)


def total(quote_input: QuoteInput, priced: PricedQuote) -> HowOut:
    e, totals = quote_input.exponent, priced.totals
    inside = quote_input.rules.prices_include_tax
    sections = {
        "kits": sum((kit.price for kit in priced.kits), Decimal(0)),
        "labour": priced.labour_total,
        "needs": sum((need.price for need in priced.needs), Decimal(0)),
        "outside": sum((work.price for work in priced.outside), Decimal(0)),
        "extras": sum((extra.price for extra in priced.extras), Decimal(0)),
        "fees": sum((fee.price for fee in priced.fees), totals.supplies),
    }
    steps = [step(f"total_{name}", cash(amount, e)) for name, amount in sections.items() if amount]
    if priced.discount and priced.discount.amount:
        steps.append(step("total_discount", less(cash(priced.discount.amount, e))))
    titles = {named_tax.tax.code: named_tax.title for named_tax in quote_input.rules.taxes}
    if not inside:
        steps.append(step("net", cash(totals.net, e)))
    word = "of_it_tax" if inside else "and_tax"
    steps += [step(word, cash(tax.amount, e), title=titles[tax.code]) for tax in totals.taxes]
    rule = sentences("total_inside" if inside else "total")
    return explained("total", say("how.title.total"), rule, steps, cash(totals.gross, e))
