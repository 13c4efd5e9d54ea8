"""Findings for price bands that sell below cost."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from shop.calc.money import rounded
from shop.calc.quantity import plain
from shop.calc.rules import Rules
from shop.calc.tax_stack import TaxStack
from shop.tables.engine import ParsedRow
from shop.tables.findings import Finding, please_check

PART = "part"  # the default tax class of bought items


def below_cost(rows: Sequence[ParsedRow], rules_json: Mapping[str, Any]) -> list[Finding]:
    """A finding for each band whose multiplier leaves less than the cost after the tax inside the price."""
    rules = Rules.from_json(rules_json)
    taxes = tuple(named.tax for named in rules.taxes)
    least = 1 + TaxStack(taxes, 2).rate(PART) if rules.prices_include_tax else Decimal(1)
    return [
        please_check(
            "band_inside_below_cost" if rules.prices_include_tax else "band_below_cost",
            row.at("x"),
            x=plain(band.multiplier),
            percent=rounded(Fraction(band.multiplier) / Fraction(least) * 100, 1),
            least=plain(least),
        )
        for row, band in zip(rows, rules.markup_bands, strict=False)
        if band.multiplier < least
    ]
