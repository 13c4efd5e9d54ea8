"""A second implementation of landed cost from its document, in fractions, for currencies with 0, 2 and 3 decimals."""

from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.landed import DutyBase, ImportLine, Markup, Shipment, land, sell_price
from shop.calc.errors import CalculationError
from tests.calc.test_landed import costs, defined, markups, shipments
from tests.examples import many

exponents = st.sampled_from([0, 2, 3])


def half_up(amount: Fraction, places: int) -> Fraction:
    return Fraction(floor(abs(amount) * 10**places + Fraction(1, 2)), 10**places) * (1 if amount >= 0 else -1)


def shared_out(total: Fraction, weights: list[Fraction], places: int) -> list[Fraction]:
    """Gives each unit in turn to the share that is furthest below its fair part; ties go to the earlier."""
    if not any(weights):
        weights = [Fraction(1)] * len(weights)
    unit = Fraction(1, 10**places)
    fair = [total * weight / sum(weights) for weight in weights]
    shares = [floor(share / unit) * unit for share in fair]
    owed = sorted(range(len(fair)), key=lambda at: (shares[at] - fair[at], at))
    for at in owed[: int((total - sum(shares)) / unit)]:
        shares[at] += unit
    return shares


@settings(max_examples=many(200))
@given(shipments())
def test_every_figure_is_what_the_document_says(shipment: Shipment) -> None:
    landed, places, rate = land(shipment), shipment.exponent, Fraction(shipment.rate)
    goods = [Fraction(line.quantity) * Fraction(line.unit_foreign) for line in shipment.lines]
    freight = shared_out(half_up(Fraction(shipment.freight_foreign) * rate, places), goods, places)
    brokerage = shared_out(half_up(Fraction(shipment.brokerage_local), places), goods, places)
    taxed = Fraction(0)
    for at, line in enumerate(shipment.lines):
        landed_line = landed.lines[at]
        value = half_up(goods[at] * rate, places)
        base = value + freight[at] if shipment.duty_base is DutyBase.GOODS_AND_FREIGHT else value
        duty = half_up(base * Fraction(line.duty_rate), places)
        cost = value + duty + freight[at] + brokerage[at]
        assert (landed_line.value, landed_line.freight, landed_line.brokerage) == (value, freight[at], brokerage[at])
        assert (landed_line.duty_base, landed_line.duty, landed_line.landed) == (base, duty, cost)
        unit = half_up(defined(cost / Fraction(line.quantity), shipment.markup), places)
        assert landed_line.sell_unit == unit
        assert landed_line.sell == half_up(unit * Fraction(line.quantity), places)
        taxed += base + duty
    assert landed.recoverable_tax == half_up(taxed * Fraction(shipment.recoverable_tax_rate), places)
    assert landed.landed_total == sum(line.landed for line in landed.lines)
    assert landed.sell_total == sum(line.sell for line in landed.lines)
    profit = Fraction(landed.sell_total) - Fraction(landed.landed_total)
    assert landed.gross_profit == profit
    assert landed.margin == (half_up(profit / Fraction(landed.sell_total), 4) if landed.sell_total else None)
    assert landed.markup_rate == (half_up(profit / Fraction(landed.landed_total), 4) if landed.landed_total else None)


@given(shipments())
def test_every_figure_has_the_decimals_of_the_currency(shipment: Shipment) -> None:
    landed = land(shipment)
    figures = [landed.landed_total, landed.sell_total, landed.gross_profit, landed.recoverable_tax]
    for line in landed.lines:
        figures += [line.value, line.freight, line.brokerage, line.duty, line.landed, line.sell_unit, line.sell]
    assert {-figure.as_tuple().exponent for figure in figures} == {shipment.exponent}


@given(shipments(), st.decimals("0.01", "500", places=2))
def test_in_one_parcel_a_dearer_part_never_costs_or_sells_for_less(shipment: Shipment, more: D) -> None:
    """Two lines differ only in price, at any place; freight and brokerage are shared by cost."""
    cheap = ImportLine("cheap", D(3), shipment.lines[0].unit_foreign, D("0.06"))
    dear = replace(cheap, id="dear", unit_foreign=cheap.unit_foreign + more)
    for pair in ((cheap, *shipment.lines, dear), (dear, *shipment.lines, cheap)):
        lines = {line.id: line for line in land(replace(shipment, lines=pair)).lines}
        assert lines["cheap"].landed <= lines["dear"].landed
        assert lines["cheap"].sell_unit <= lines["dear"].sell_unit
        assert lines["cheap"].sell <= lines["dear"].sell


@given(markups(), costs, costs, exponents)
def test_the_price_never_falls_as_the_cost_rises_whatever_the_decimals(
    markup: Markup, first: D | Fraction, second: D | Fraction, exponent: int
) -> None:
    edges = [band.up_to + step for band in markup.bands if band.up_to for step in (D("-0.001"), D(0), D("0.001"))]
    ladder = sorted((first, second, *edges), key=Fraction)
    prices = [sell_price(cost, markup, exponent) for cost in ladder]
    assert prices == sorted(prices)
    assert prices == [half_up(defined(Fraction(cost), markup), exponent) for cost in ladder]


@given(shipments(), st.sampled_from([D(0), D(-1), D("-0.001")]), st.data())
def test_one_line_of_nothing_refuses_the_parcel_by_its_name(shipment: Shipment, none: D, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(shipment.lines)))
    lines = (*shipment.lines[:at], ImportLine("empty", none, D(5)), *shipment.lines[at:])
    with pytest.raises(CalculationError, match="^bad_quantity: empty"):
        land(replace(shipment, lines=lines))
