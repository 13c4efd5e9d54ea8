"""The freight and brokerage of a shipment, shared over its parts by their value."""

from decimal import Decimal as D

from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.shipment import Charges, ShippedPart, share_charges

cents = st.integers(0, 10**6).map(lambda units: D(units).scaleb(-2))
parts = st.builds(ShippedPart, st.integers(1, 500).map(D), cents)


def test_the_dearer_goods_bear_the_more() -> None:
    """300 and 100 of goods: 30 and 10 of 40 freight, 3 and 1 of 4 brokerage, over two and four pieces."""
    shipped = [ShippedPart(D(2), D(150)), ShippedPart(D(4), D(25))]
    dear, cheap = share_charges(shipped, Charges(D(40), D(4)), 2, 2)
    assert (dear, cheap) == (Charges(D("15.0000"), D("1.5000")), Charges(D("2.5000"), D("0.2500")))


def test_goods_without_a_cost_share_equally_and_a_unit_has_four_decimals() -> None:
    shipped = [ShippedPart(D(3), D(0)), ShippedPart(D(1), D(0))]
    assert [share.freight for share in share_charges(shipped, Charges(D(10), D(0)), 2, 2)] == [D("1.6667"), D("5.0000")]


def test_each_currency_has_its_own_decimals() -> None:
    shipped = [ShippedPart(D(1), D(1)), ShippedPart(D(1), D(1))]
    shares = share_charges(shipped, Charges(D(5), D("0.01")), 0, 2)
    assert shares == (Charges(D(3), D("0.01")), Charges(D(2), D(0)))


@given(st.lists(parts, min_size=1, max_size=8), cents, cents)
def test_the_units_add_up_to_the_charges(shipped: list[ShippedPart], freight: D, brokerage: D) -> None:
    """To half a ten-thousandth of each piece, to which the charges of one unit are rounded."""
    shares = share_charges(shipped, Charges(freight, brokerage), 2, 2)
    pieces = sum(part.quantity for part in shipped)
    for name, whole in (("freight", freight), ("brokerage", brokerage)):
        units = sum(part.quantity * getattr(share, name) for part, share in zip(shipped, shares, strict=True))
        assert abs(units - whole) <= pieces * D("0.00005")
