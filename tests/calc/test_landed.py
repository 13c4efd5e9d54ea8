"""Landed cost and price: properties of any import. The worked cases are in the vectors."""

from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.landed import (
    Band,
    DutyBase,
    ImportLine,
    Markup,
    MarkupMode,
    Shipment,
    land,
    sell_price,
)
from quotes.calc.markup import band_shares, up_to_step
from shop.calc.errors import CalculationError
from shop.calc.money import rounded

money = st.decimals("0", "5000", places=2)


@st.composite
def markups(draw: st.DrawFn) -> Markup:
    tops = sorted(draw(st.sets(st.decimals("0.01", "900", places=2), max_size=4)))
    multipliers = st.decimals("0", "9", places=2)
    bands = tuple(Band(top, draw(multipliers)) for top in (*tops, None))
    return Markup(draw(st.sampled_from(MarkupMode)), bands)


@st.composite
def shipments(draw: st.DrawFn) -> Shipment:
    lines = st.builds(
        ImportLine,
        id=st.just("line"),
        quantity=st.decimals("0.1", "40", places=1),
        unit_foreign=st.just(D(0)) | money,
        duty_rate=st.decimals("0", "0.5", places=3),
    )
    return Shipment(
        rate=draw(st.decimals("0.01", "150", places=4)),
        lines=tuple(draw(st.lists(lines, min_size=1, max_size=6))),
        markup=draw(markups()),
        freight_foreign=draw(money),
        brokerage_local=draw(money),
        duty_base=draw(st.sampled_from(DutyBase)),
        recoverable_tax_rate=D("0.2"),
        exponent=draw(st.sampled_from([0, 2, 3])),
    )


@settings(deadline=None)
@given(shipments())
def test_freight_and_brokerage_are_shared_out_to_the_last_cent(shipment: Shipment) -> None:
    landed = land(shipment)
    freight = rounded(shipment.freight_foreign * shipment.rate, shipment.exponent)
    assert sum(line.freight for line in landed.lines) == freight
    assert sum(line.brokerage for line in landed.lines) == rounded(shipment.brokerage_local, shipment.exponent)


@settings(deadline=None)
@given(shipments())
def test_every_share_is_within_one_unit_of_its_fair_part(shipment: Shipment) -> None:
    goods = [Fraction(line.quantity * line.unit_foreign) for line in shipment.lines]
    parts = [value / sum(goods) if sum(goods) else Fraction(1, len(goods)) for value in goods]
    freight = Fraction(rounded(shipment.freight_foreign * shipment.rate, shipment.exponent))
    for line, part in zip(land(shipment).lines, parts, strict=True):
        assert abs(Fraction(line.freight) - freight * part) < Fraction(1, 10**shipment.exponent)


@settings(deadline=None)
@given(shipments())
def test_the_figures_of_a_shipment_add_up(shipment: Shipment) -> None:
    landed = land(shipment)
    for line in landed.lines:
        assert line.landed == line.value + line.duty + line.freight + line.brokerage
        assert Fraction(line.unit_cost) * Fraction(line.quantity) == Fraction(line.landed)
        assert line.sell == rounded(line.quantity * line.sell_unit, shipment.exponent)
        taxed = line.value + (line.freight if shipment.duty_base == "goods_and_freight" else 0)
        assert line.duty_base == taxed
    assert landed.landed_total == sum(line.landed for line in landed.lines)
    assert landed.gross_profit == landed.sell_total - landed.landed_total
    if landed.sell_total:
        assert landed.margin == rounded(Fraction(landed.gross_profit) / Fraction(landed.sell_total), 4)
    else:
        assert landed.margin is None


costs = st.decimals("0", "1000", places=4) | st.fractions(0, 1000, max_denominator=97)


@settings(deadline=None)
@given(markups(), costs, costs)
def test_the_price_never_falls_as_the_cost_rises(markup: Markup, first: Any, second: Any) -> None:
    prices = [sell_price(cost, markup, 2) for cost in sorted((first, second, *around_the_edges(markup)), key=Fraction)]
    assert prices == sorted(prices)


@settings(deadline=None)
@given(markups(), costs)
def test_the_price_is_the_plain_definition_of_its_mode(markup: Markup, cost: Any) -> None:
    for edge in (cost, *around_the_edges(markup)):
        assert sell_price(edge, markup, 2) == rounded(defined(Fraction(edge), markup), 2)


def around_the_edges(markup: Markup) -> list[D]:
    edges = [band.up_to for band in markup.bands if band.up_to is not None]
    return [edge + step for edge in edges for step in (D("-0.01"), D(0), D("0.01"))]


def defined(cost: Fraction, markup: Markup) -> Fraction:
    price, bottom, dearest = Fraction(0), Fraction(0), Fraction(0)
    for band in markup.bands:
        top = cost if band.up_to is None else min(cost, Fraction(band.up_to))
        if markup.mode is MarkupMode.GRADUATED:
            price += max(top - bottom, Fraction(0)) * Fraction(band.multiplier)
        elif band.up_to is None or cost <= band.up_to:
            return max(cost * Fraction(band.multiplier), dearest)
        else:
            dearest = max(dearest, Fraction(band.up_to) * Fraction(band.multiplier))
        bottom = top
    return price


GRADUATED = Markup(MarkupMode.GRADUATED, (Band(D(25), D(2)), Band(None, D("1.5"))))


def parcel(**fields: Any) -> Shipment:
    return replace(Shipment(D(1), (ImportLine("hose", D(1), D(10)),), GRADUATED), **fields)


def bands(*pairs: tuple[Any, Any]) -> Markup:
    return Markup(MarkupMode.FLOORED, tuple(Band(*pair) for pair in pairs))


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"lines": (ImportLine("hose", D(0), D(1)),)}, "bad_quantity: hose 0"),
        ({"lines": (ImportLine("hose", D(-1), D(1)),)}, "bad_quantity: hose -1"),
        ({"lines": (ImportLine("hose", 0.5, D(1)),)}, "not_exact: hose 0.5"),
        ({"lines": (ImportLine("hose", D(1), 0.5),)}, "not_exact: hose 0.5"),
        ({"lines": (ImportLine("hose", D(1), D(1), 0.5),)}, "not_exact: hose 0.5"),
        ({"rate": 1.5}, "not_exact: rate 1.5"),
        ({"freight_foreign": 1.5}, "not_exact: freight_foreign 1.5"),
        ({"brokerage_local": 1.5}, "not_exact: brokerage_local 1.5"),
        ({"markup": bands()}, "bad_markup: the last band has an end"),
        ({"markup": bands((D(5), D(1)))}, "bad_markup: the last band has an end"),
        ({"markup": bands((None, D(1)), (None, D(1)))}, "bad_markup: band 1 ends at None"),
        ({"markup": bands((D(9), D(1)), (D(9), D(1)), (None, D(1)))}, "bad_markup: band 2 ends at 9"),
        ({"markup": bands((None, D(-1)))}, "bad_markup: band 1 multiplies by -1"),
        ({"markup": bands((None, 1.5))}, "not_exact: band 1 1.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        land(parcel(**fields))
    assert str(refused.value) == refusal


def test_a_price_is_not_made_from_a_float() -> None:
    with pytest.raises(CalculationError, match="not_exact: unit_cost 0.5"):
        sell_price(0.5, GRADUATED, 2)  # type: ignore[arg-type]


@given(markups(), money)
def test_the_shares_of_the_bands_add_up_to_the_price(markup, cost):
    shares = band_shares(cost, markup)
    assert rounded(sum(share.price for share in shares), 2) == sell_price(cost, markup, 2)
    assert sum(share.cost for share in shares) == cost


@given(price=st.decimals(0, 100_000, places=2), step=st.sampled_from([D("0.05"), D("0.1"), D(1)]))
def test_a_price_is_rounded_up_to_the_next_multiple_and_no_further(price: D, step: D) -> None:
    stepped = up_to_step(price, step)
    assert stepped % step == 0 and price <= stepped < price + step
    assert up_to_step(price, None) == price
