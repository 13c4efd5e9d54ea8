"""The totals of a document from its lines, allowances, charges, supplies and taxes: the calculation of totals.

Worked cases: fixtures/vectors/totals.json. Units: money with the currency's `exponent` decimal places, exact
quantities and unit prices, rates as shares (20 % is 0.2).
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal, localcontext
from fractions import Fraction

from shop.calc.document import (
    ClassAmount,
    ClassTotal,
    Document,
    DocumentLine,
    LineTotal,
    Rounding,
    Supplies,
    TaxTotal,
    Totals,
)
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import exact
from shop.calc.tax_stack import TaxStack

_NOTHING = Decimal(0)


def total_document(document: Document) -> Totals:
    """The totals of `document` in its currency.

    Refuses `duplicate_tax` (the tax), `unknown_tax` (the missing tax and the one that refers to it), `tax_loop` (its
    codes in order), `bad_rate` (the tax class), `bad_base_quantity` (the line), `not_exact` (the figure; a float) and
    `not_rounded` (an allowance, charge, payment or payable rounding finer than the currency).
    """
    with localcontext(EXACT):
        lines = tuple(_line_total(line, document.exponent) for line in document.lines)
        supplies = _supplies(document.supplies, lines, document.exponent)
        items = _items(document, lines, supplies)
        taxes, inside = _taxes(document, items)
        return _totals(document, lines, supplies, items, taxes, inside)


def _totals(
    document: Document,
    lines: tuple[LineTotal, ...],
    supplies: Decimal,
    items: tuple[ClassAmount, ...],
    taxes: tuple[TaxTotal, ...],
    inside: Mapping[str, Decimal],
) -> Totals:
    nothing = rounded(_NOTHING, document.exponent)
    stated = sum((item.amount for item in items), nothing)
    tax_total = sum((tax.amount for tax in taxes), nothing)
    net = stated - tax_total if document.prices_include_tax else stated
    paid = _money(document.paid, document.exponent, "paid")
    payable_rounding = _money(document.payable_rounding, document.exponent, "payable_rounding")
    return Totals(
        lines=lines,
        supplies=supplies,
        classes=tuple(
            ClassTotal(tax_class, amount, inside.get(tax_class, nothing))
            for tax_class, amount in _by_class(items).items()
        ),
        taxes=taxes,
        net=net,
        tax_total=tax_total,
        gross=net + tax_total,
        due=net + tax_total - paid + payable_rounding,
        exponent=document.exponent,
    )


def _line_total(line: DocumentLine, exponent: int) -> LineTotal:
    price = exact(line.quantity, line.id) * exact(line.unit_price, line.id)
    amount = rounded(_per_base(price, line), exponent)
    for allowance in line.allowances:
        amount -= _money(allowance, exponent, line.id)
    for charge in line.charges:
        amount += _money(charge, exponent, line.id)
    return LineTotal(line.id, line.tax_class, amount)


def _per_base(price: Decimal, line: DocumentLine) -> Decimal | Fraction:
    if line.base_quantity == 1:
        return price
    if exact(line.base_quantity, line.id) == 0:
        raise CalculationError("bad_base_quantity", line.id)
    return Fraction(price) / Fraction(line.base_quantity)


def _supplies(supplies: Supplies | None, lines: tuple[LineTotal, ...], exponent: int) -> Decimal:
    if supplies is None:
        return rounded(_NOTHING, exponent)
    basis = sum((line.amount for line in lines if line.tax_class in supplies.basis), _NOTHING)
    charge = exact(supplies.rate, "supplies") * basis
    if supplies.cap is not None:
        charge = min(charge, exact(supplies.cap, "supplies"))
    return rounded(max(charge, _NOTHING), exponent)


def _items(document: Document, lines: tuple[LineTotal, ...], supplies: Decimal) -> tuple[ClassAmount, ...]:
    """One signed amount for each taxed item; an allowance is negative."""
    items = [ClassAmount(line.tax_class, line.amount) for line in lines]
    for allowance in document.allowances:
        amount = _money(allowance.amount, document.exponent, allowance.tax_class)
        items.append(ClassAmount(allowance.tax_class, -amount))
    for charge in document.charges:
        amount = _money(charge.amount, document.exponent, charge.tax_class)
        items.append(ClassAmount(charge.tax_class, amount))
    if document.supplies is not None:
        items.append(ClassAmount(document.supplies.tax_class, supplies))
    return tuple(items)


def _taxes(document: Document, items: tuple[ClassAmount, ...]) -> tuple[tuple[TaxTotal, ...], dict[str, Decimal]]:
    """The tax totals, and the tax inside each class (empty unless prices include tax)."""
    stack = TaxStack(document.taxes, document.exponent)
    whole = document.rounding is Rounding.DOCUMENT
    by_class = _by_class(items)
    if not document.prices_include_tax:
        portions = [by_class] if whole else [{item.tax_class: item.amount} for item in items]
        return _summed(document, (tax for nets in portions for tax in stack.on_top(nets))), {}
    amounts = list(by_class.items()) if whole else [(item.tax_class, item.amount) for item in items]
    parts = [(tax_class, stack.inside(tax_class, gross)) for tax_class, gross in amounts]
    inside = dict.fromkeys(by_class, rounded(_NOTHING, document.exponent))
    for tax_class, taxes in parts:
        inside[tax_class] += sum((tax.amount for tax in taxes), _NOTHING)
    return _summed(document, (tax for _, taxes in parts for tax in taxes)), inside


def _summed(document: Document, parts: Iterable[TaxTotal]) -> tuple[TaxTotal, ...]:
    nothing = rounded(_NOTHING, document.exponent)
    taxable = {tax.code: nothing for tax in document.taxes}
    amount = dict(taxable)
    for part in parts:
        taxable[part.code] += part.taxable
        amount[part.code] += part.amount
    return tuple(TaxTotal(tax.code, taxable[tax.code], amount[tax.code]) for tax in document.taxes)


def _by_class(items: Iterable[ClassAmount]) -> dict[str, Decimal]:
    by_class: dict[str, Decimal] = {}
    for item in items:
        by_class[item.tax_class] = by_class.get(item.tax_class, _NOTHING) + item.amount
    return by_class


def _money(amount: Decimal, exponent: int, culprit: str) -> Decimal:
    money = rounded(exact(amount, culprit), exponent)
    if money != amount:
        raise CalculationError("not_rounded", f"{culprit} {amount}")
    return money
