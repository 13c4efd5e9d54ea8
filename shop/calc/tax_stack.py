"""Taxes side by side and on top of one another: the tax on a net amount, and the tax inside a gross amount."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache
from graphlib import CycleError, TopologicalSorter

from shop.calc.document import Tax, TaxTotal
from shop.calc.errors import CalculationError
from shop.calc.money import allocate, rounded
from shop.calc.quantity import exact

_NOTHING = Decimal(0)


class TaxStack:
    """The validated taxes of one document.

    Refuses `duplicate_tax`, `unknown_tax` (in `on_top_of`), `tax_loop`, and `bad_rate` where the taxes on a class would
    take the whole price or more.
    """

    def __init__(self, taxes: tuple[Tax, ...], exponent: int) -> None:
        self._taxes = _by_code(taxes)
        self._classes = {tax.code: frozenset(tax.classes) for tax in taxes}
        self._exponent = exponent
        _check_order(self._taxes)
        self._rates_inside = cache(self._rates_of_class)

    def on_top(self, nets: Mapping[str, Decimal]) -> tuple[TaxTotal, ...]:
        """All taxes on `nets` (tax class -> net), each rounded once."""
        return tuple(self._on_top(tax, nets) for tax in self._taxes.values())

    def inside(self, tax_class: str, gross: Decimal) -> tuple[TaxTotal, ...]:
        """The taxes inside `gross`: rounded once as a sum, then split by largest remainder."""
        rates, share = self._rates_inside(tax_class)
        tax = rounded(Fraction(gross) * share, self._exponent)
        split = allocate(tax, tuple(rates.values()), self._exponent)
        shares = dict(zip(rates, split, strict=True))
        return tuple(self._inside(code, gross - tax, shares) for code in shares)

    def rate(self, tax_class: str) -> Decimal:
        """The sum of the effective rates of the taxes that name the class; 0 if none does."""
        return sum(self._rates_inside(tax_class)[0].values(), _NOTHING)

    def _on_top(self, tax: Tax, nets: Mapping[str, Decimal]) -> TaxTotal:
        # `named` narrows on the way down, so a lower tax gets only the classes that every tax above it names.
        named = {tax_class: net for tax_class, net in nets.items() if tax_class in self._classes[tax.code]}
        below = (self._on_top(self._taxes[code], named).amount for code in tax.on_top_of)
        taxable = sum(named.values(), _NOTHING) + sum(below, _NOTHING)
        return TaxTotal(tax.code, taxable, rounded(taxable * tax.rate, self._exponent))

    def _inside(self, code: str, net: Decimal, shares: Mapping[str, Decimal]) -> TaxTotal:
        below = (shares.get(lower, _NOTHING) for lower in self._taxes[code].on_top_of)
        return TaxTotal(code, net + sum(below, _NOTHING), shares[code])

    def _rates_of_class(self, tax_class: str) -> tuple[dict[str, Decimal], Fraction]:
        """The effective rates of the taxes that name the class, in the order listed, and their share of a gross."""
        naming = (tax for tax in self._taxes.values() if tax_class in self._classes[tax.code])
        rates = {tax.code: self._effective(tax, tax_class) for tax in naming}
        together = Fraction(sum(rates.values(), _NOTHING))
        if together <= -1:
            raise CalculationError("bad_rate", tax_class)
        return rates, together / (1 + together)

    def _effective(self, tax: Tax, tax_class: str) -> Decimal:
        if tax_class not in self._classes[tax.code]:
            return _NOTHING
        below = (self._effective(self._taxes[code], tax_class) for code in tax.on_top_of)
        return tax.rate * (1 + sum(below, _NOTHING))


def _by_code(taxes: tuple[Tax, ...]) -> dict[str, Tax]:
    by_code: dict[str, Tax] = {}
    for tax in taxes:
        if tax.code in by_code:
            raise CalculationError("duplicate_tax", tax.code)
        exact(tax.rate, tax.code)
        by_code[tax.code] = tax
    return by_code


def _check_order(taxes: Mapping[str, Tax]) -> None:
    for tax in taxes.values():
        for code in tax.on_top_of:
            if code not in taxes:
                raise CalculationError("unknown_tax", f"{code} under {tax.code}")
    try:
        TopologicalSorter({code: tax.on_top_of for code, tax in taxes.items()}).prepare()
    except CycleError as loop:
        raise CalculationError("tax_loop", " > ".join(reversed(loop.args[1]))) from None
