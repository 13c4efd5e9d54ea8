"""Prices a quote from its choices: labour, parts, needs, fees, discount and taxes, in that order."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from quotes.calc.buying import price_unit
from quotes.calc.fitting import fit_notices
from quotes.calc.outside import price_outside
from quotes.calc.priced import (
    PricedContingency,
    PricedDiscount,
    PricedExtra,
    PricedFee,
    PricedKit,
    PricedLabour,
    PricedNeed,
    PricedOutside,
    PricedQuote,
    Saving,
    TakenPack,
)
from quotes.calc.priced_contingencies import price_contingencies
from quotes.calc.priced_deposit import price_deposit
from quotes.calc.priced_discount import price_discount
from quotes.calc.priced_fees import price_fees
from quotes.calc.priced_labour import LINE, QuoteLabour, price_labour
from quotes.calc.priced_minimum import price_minimum
from quotes.calc.priced_needs import price_needs
from quotes.calc.priced_supplied import price_supplied
from quotes.calc.quote_input import ChosenKit, ChosenOutside, Extra, QuoteInput
from shop.calc.document import Document, DocumentLine
from shop.calc.money import rounded
from shop.calc.reason import Reason
from shop.calc.rules import UNTAXED, Rules
from shop.calc.tax import total_document

NOTHING, ONE = Decimal(0), Decimal(1)


def price_quote(quote: QuoteInput) -> PricedQuote:
    """Every line, total and reason of a quote from its frozen input.

    Refuses what the labour, pack, coolant, landed and totals calculations refuse.
    """
    labour = price_labour(quote)
    kits = tuple(_kit(kit, labour, quote) for kit in quote.kits)
    needs = price_needs(quote)
    extras = tuple(_extra(extra, quote) for extra in quote.extras)
    contingencies = price_contingencies(quote)
    outside = tuple(_outside(work, quote) for work in quote.outside)
    minimum = price_minimum(quote, labour)
    house_fees, fee_notices = price_fees(quote, needs)
    fees = (*price_supplied(quote, labour), *((minimum,) if minimum else ()), *house_fees)
    document = _document(quote.rules, quote.exponent, _lines(kits, labour, needs, extras, outside, fees, quote))
    cores = {f"extra:{extra.line}" for extra in extras if extra.core}
    discount = price_discount(document, quote.discount, cores)
    document = replace(document, allowances=discount.allowances if discount else ())
    totals = total_document(document)
    parts = {f"kit:{kit.line}" for kit in kits} | {f"extra:{extra.line}" for extra in extras if extra.part}
    return PricedQuote(
        kits=kits,
        operations=labour.operations,
        skills=labour.skills,
        needs=needs,
        extras=extras,
        contingencies=contingencies,
        outside=outside,
        fees=fees,
        taken=quote.taken,
        discount=discount,
        deposit=price_deposit(
            quote.rules, document, totals.gross, parts, _not_returnable(quote, kits, extras, outside)
        ),
        hours=labour.hours,
        apart_hours=labour.apart_hours,
        labour_total=labour.total,
        document=document,
        totals=totals,
        notices=tuple(
            dict.fromkeys((*_notices(quote, kits, needs, extras, contingencies, document, discount), *fee_notices))
        ),
        labour=tuple(
            PricedLabour(done.line, done.code, quote.titles[done.code], labour.kits[LINE + done.line].alone_charged)
            for done in quote.labour
        ),
    )


def savings(quote: QuoteInput, priced: PricedQuote) -> tuple[Saving, ...]:
    """Maps each kit line to the hours and the total with tax that the quote saves without it."""
    kit_savings = []
    for kit in quote.kits:
        others = price_quote(_without(quote, kit))
        hours_left, gross = others.hours, others.totals.gross
        kit_savings.append(Saving(kit.line, priced.hours - hours_left, priced.totals.gross - gross, hours_left, gross))
    return tuple(kit_savings)


def _without(quote: QuoteInput, kit: ChosenKit) -> QuoteInput:
    return replace(
        quote,
        kits=tuple(other for other in quote.kits if other.line != kit.line),
        needs=tuple(need for need in quote.needs if need.kit != kit.letter),
    )


def _kit(kit: ChosenKit, labour: QuoteLabour, quote: QuoteInput) -> PricedKit:
    if kit.supplied:
        kit = replace(kit, buying=None, own_price=NOTHING, own_cost=NOTHING)
    sale = price_unit(kit.buying, quote.rules, quote.exponent) if kit.buying else None
    own_price = rounded(kit.own_price or NOTHING, quote.exponent)
    computed, cost, reasons = (sale.price, sale.cost, sale.reasons) if sale else (own_price, _own_cost(kit, quote), ())
    price = computed
    if (override := quote.overrides.get(f"kit:{kit.line}")) and not kit.supplied:
        reasons = (Reason.of("overridden", because=override.because, computed=price, unit=""), *reasons)
        price = rounded(override.value, quote.exponent)
    return PricedKit(
        line=kit.line,
        letter=kit.letter,
        code=kit.code,
        title=kit.title,
        price=price,
        cost=cost,
        alone_hours=labour.kits[kit.code].alone_charged,
        computed=computed,
        sold=sale,
        reasons=reasons,
        supplied=kit.supplied,
    )


def _own_cost(kit: ChosenKit, quote: QuoteInput) -> Decimal | None:
    return None if kit.own_cost is None else rounded(kit.own_cost, quote.exponent)


def _extra(extra: Extra, quote: QuoteInput) -> PricedExtra:
    sale = price_unit(extra.buying, quote.rules, quote.exponent) if extra.buying else None
    unit = extra.unit_price if extra.unit_price is not None else (sale.price if sale else NOTHING)
    return PricedExtra(
        line=extra.line,
        part=extra.part,
        priced=extra.unit_price is not None or sale is not None,
        title=extra.title,
        quantity=extra.quantity,
        unit_price=unit,
        price=rounded(extra.quantity * unit, quote.exponent),
        cost=rounded(sale.cost * extra.quantity, quote.exponent) if sale else None,
        tax_class=extra.tax_class,
        sold=sale,
        condition=extra.condition,
        original=extra.original,
        because=extra.because if extra.unit_price is not None else "",
        core=extra.core,
        supplied=extra.supplied,
        fitted_by=extra.fitted_by,
        returnable=extra.returnable,
    )


def _outside(chosen: ChosenOutside, quote: QuoteInput) -> PricedOutside:
    rules, exponent = quote.rules, quote.exponent
    reasons: tuple[Reason, ...] = ()
    taxes = tuple(named.tax for named in rules.taxes)
    computed = price_outside(chosen.terms, taxes, rules.prices_include_tax, exponent).price
    price = computed
    if override := quote.overrides.get(f"outside:{chosen.line}"):
        reasons = (Reason.of("overridden", because=override.because, computed=computed, unit=""),)
        price = rounded(override.value, exponent)
    return PricedOutside(
        line=chosen.line,
        title=chosen.work.title,
        price=price,
        cost=rounded(chosen.terms.whole_cost, exponent),
        computed=computed,
        tax_class=chosen.terms.tax_class,
        reasons=reasons,
    )


def _not_returnable(
    quote: QuoteInput, kits: Iterable[PricedKit], extras: Iterable[PricedExtra], outside: Iterable[PricedOutside]
) -> Decimal:
    """The workshop's cost of the lines that cannot be sent back. A line without a cost counts as nothing."""
    lines = {
        *(kit.line for kit in quote.kits if not kit.returnable),
        *(extra.line for extra in quote.extras if not extra.returnable),
        *(work.line for work in quote.outside if not work.returnable),
    }
    costs = {
        **{kit.line: kit.cost for kit in kits},
        **{extra.line: extra.cost for extra in extras},
        **{work.line: work.cost for work in outside},
    }
    return sum((cost for line, cost in costs.items() if line in lines and cost is not None), NOTHING)


def _lines(
    kits: Iterable[PricedKit],
    labour: QuoteLabour,
    needs: Iterable[PricedNeed],
    extras: Iterable[PricedExtra],
    outside: Iterable[PricedOutside],
    fees: Iterable[PricedFee],
    quote: QuoteInput,
) -> Iterator[DocumentLine]:
    classes = {kit.line: kit.tax_class for kit in quote.kits}
    for kit in kits:
        yield DocumentLine(f"kit:{kit.line}", classes[kit.line], ONE, kit.price)
    for skill in labour.skills:
        yield DocumentLine(f"labour:{skill.skill}", quote.rules.labour_class(skill.skill), skill.hours, skill.rate)
    for need in needs:
        yield DocumentLine(f"need:{need.key}", need.tax_class, ONE, need.price)
    for extra in extras:
        yield DocumentLine(f"extra:{extra.line}", extra.tax_class, extra.quantity, extra.unit_price)
    for work in outside:
        yield DocumentLine(f"outside:{work.line}", work.tax_class, ONE, work.price)
    for fee in fees:
        yield DocumentLine(fee.key, fee.tax_class, ONE, fee.price)
    for taken in quote.taken:
        yield DocumentLine(f"taken:{taken.source}:{taken.item}", taken.tax_class, ONE, -taken.amount)


def _document(rules: Rules, exponent: int, lines: Iterable[DocumentLine]) -> Document:
    return Document(
        lines=tuple(lines),
        supplies=rules.supplies,
        taxes=tuple(named.tax for named in rules.taxes),
        rounding=rules.rounding,
        prices_include_tax=rules.prices_include_tax,
        exponent=exponent,
    )


def before_tax(amount: Decimal, tax_class: str, rules: Rules, exponent: int) -> Decimal:
    """`amount` without the tax inside it, by the rules that total a quote; unchanged where prices exclude tax."""
    document = _document(rules, exponent, (DocumentLine("", tax_class, ONE, amount),))
    return total_document(replace(document, supplies=None)).net


def _notices(
    quote: QuoteInput,
    kits: Iterable[PricedKit],
    needs: Sequence[PricedNeed],
    extras: Sequence[PricedExtra],
    contingencies: Sequence[PricedContingency],
    document: Document,
    discount: PricedDiscount | None,
) -> Iterator[Reason]:
    yield from fit_notices(quote)
    if discount and discount.too_large:
        amount = discount.agreed.amount or NOTHING
        yield Reason.of("discount_too_large", amount=amount, base=rounded(discount.base, quote.exponent))
    for chosen in quote.kits:
        overridden = f"kit:{chosen.line}" in quote.overrides
        if chosen.supplied:
            pass
        elif chosen.buying and chosen.buying.rate is None and not overridden:
            yield Reason.of("no_rate", currency=chosen.buying.currency, title=chosen.title)
        elif chosen.buying is None and chosen.own_price is None and not overridden:
            yield Reason.of("no_price", title=chosen.title)
        if not chosen.operations and chosen.own_hours is None:
            yield Reason.of("no_hours", title=chosen.title)
    loose: tuple[PricedExtra | PricedContingency, ...] = (*extras, *contingencies)
    for line in loose:
        if not line.priced:
            yield Reason.of("no_part_price", title=line.title)
    settled = {f"need:{need.key}" for need in needs} & set(quote.overrides)
    for need in needs:
        for reason in need.reasons if f"need:{need.key}" not in settled else ():
            if reason.code in ("capacity_unknown", "no_pack", "mix_drain_more", "mix_too_strong"):
                yield reason
    classes = {line.tax_class for line in document.lines} | {line.tax_class for line in contingencies}
    for tax_class in sorted(classes - {*quote.rules.tax_classes(), UNTAXED}):
        yield Reason.of("unknown_class", tax_class=tax_class)
    yield from _old_prices(
        quote.rules, [*kits, *(pack for need in needs for pack in need.packs), *extras, *contingencies]
    )


def _old_prices(
    rules: Rules, bought: Iterable[PricedKit | TakenPack | PricedExtra | PricedContingency]
) -> Iterator[Reason]:
    for item in bought:
        if item.sold and (days := item.sold.buying.rate_days or 0) > rules.rate_stale_days:
            yield Reason.of("rate_old", currency=item.sold.buying.currency, days=days)
        if item.sold and (item.sold.buying.days_left or 0) < 0:
            yield Reason.of("offer_ended", supplier=item.sold.buying.supplier, title=item.title)


def margin_rate(net: Decimal, cost: Decimal) -> Decimal | None:
    """Profit before tax as a share of sales, with four decimal places; None without sales."""
    return rounded(Fraction(net - cost) / Fraction(net), 4) if net else None
