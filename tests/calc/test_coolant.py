"""Properties of coolant mixes in the circuit; the worked cases are in the vectors."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from kitting.calc.coolant import Refill, refill
from kitting.calc.freezing import GLYCOLS, concentration_at, freeze_point, glycol_named, warmest_and_coldest
from shop.calc.errors import CalculationError

MILLILITRE = Decimal("0.001")


def litres(low: str, high: str) -> st.SearchStrategy[Decimal]:
    return st.decimals(Decimal(low), Decimal(high), places=3)


def shares(low: str, high: str) -> st.SearchStrategy[Decimal]:
    return st.decimals(Decimal(low), Decimal(high), places=2)


@st.composite
def refills(draw: st.DrawFn) -> Refill:
    capacity = draw(litres("0.5", "40"))
    return Refill(
        capacity_before=capacity,
        drained=draw(litres("0", str(capacity))),
        residual_concentration=draw(shares("0", "1")),
        target_concentration=draw(shares("0.30", "0.65")),
        added_to_circuit=draw(litres("0", "3")),
        premix_concentration=draw(shares("0.2", "0.7")),
        aux_circuit=draw(litres("0", "5")),
        top_up=draw(litres("0", "2")),
        glycol=draw(st.sampled_from(GLYCOLS)),
    )


def strength(given_refill: Refill, added: Fraction, poured: Fraction) -> Fraction:
    """The concentration after `poured` litres with `added` litres of glycol join the rest."""
    stayed = Fraction(given_refill.capacity_before - given_refill.drained)
    return (stayed * Fraction(given_refill.residual_concentration) + added) / (stayed + poured)


@given(refills())
def test_both_ways_of_filling_reach_the_target_and_fill_the_circuit(refill_input):
    mix = refill(refill_input)
    assume(mix.status == "ok")
    premix = Fraction(refill_input.premix_concentration)
    ways = [
        (Fraction(mix.concentrate), mix.concentrate + mix.water),
        (
            Fraction(mix.premix) * premix + Fraction(mix.premix_concentrate),
            mix.premix + mix.premix_concentrate + mix.premix_water,
        ),
    ]
    within = Fraction(2, 1000) / Fraction(mix.capacity_after)
    for glycol, poured in ways:
        assert poured == mix.fill
        assert (
            abs(strength(refill_input, glycol, Fraction(poured)) - Fraction(refill_input.target_concentration))
            <= within
        )
    assert min(mix.concentrate, mix.water, mix.premix, mix.premix_concentrate, mix.premix_water) >= 0
    assert not (mix.premix_concentrate and mix.premix_water)


@given(refills())
def test_draining_what_it_says_is_enough_and_a_millilitre_less_is_not(refill_input):
    mix = refill(refill_input)
    assume(mix.status != "ok")
    assert mix.drain_at_least > refill_input.drained
    assert refill(replace(refill_input, drained=mix.drain_at_least)).status == "ok"
    assert refill(replace(refill_input, drained=mix.drain_at_least - MILLILITRE)).status == mix.status


@given(refills())
def test_a_mix_that_cannot_be_made_has_no_amounts(refill_input):
    mix = refill(refill_input)
    amounts = (mix.concentrate, mix.water, mix.premix, mix.premix_concentrate, mix.premix_water)
    orders = (mix.order_concentrate, mix.order_premix)
    assert all((amount is None) == (mix.status != "ok") for amount in amounts + orders)
    assert (mix.drain_at_least is None) == (mix.status == "ok")


@given(refills())
def test_the_order_covers_what_is_poured_and_the_separate_circuit(refill_input):
    mix = refill(refill_input)
    assume(mix.status == "ok")
    assert mix.order_concentrate >= mix.concentrate - MILLILITRE
    assert mix.order_premix >= mix.premix + mix.aux_premix + refill_input.top_up - 2 * MILLILITRE


@pytest.mark.parametrize("glycol", GLYCOLS)
def test_more_glycol_never_freezes_sooner_within_the_table(glycol):
    points = [freeze_point(Fraction(share, 1000), glycol) for share in range(100, 601)]
    assert all(point is not None for point in points)
    assert points == sorted(points, reverse=True)


@pytest.mark.parametrize(("share", "point"), [("0.1", "-3.6"), ("0.6", "-52.0"), ("0.475", "-33.8"), ("0.125", "-4.9")])
def test_between_two_rows_of_the_table_it_is_read_in_proportion(share, point):
    assert freeze_point(Fraction(share), "ethylene") == Decimal(point)


@pytest.mark.parametrize("share", [None, Fraction("0.0999"), Fraction("0.6001")])
def test_outside_the_table_there_is_no_freeze_point(share):
    assert freeze_point(share, "ethylene") is None


def test_a_circuit_that_holds_nothing_has_no_concentration():
    dry = Refill(Decimal(0), Decimal(0), Decimal("0.5"), Decimal("0.5"), aux_circuit=Decimal(2))
    mix = refill(dry)
    assert (mix.premix_only_concentration, mix.order_premix) == (None, Decimal("2.100"))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"target_concentration": Decimal("0.2999")}, "target_out_of_range"),
        ({"drained": Decimal("-0.001")}, "drained_out_of_range"),
        ({"premix_concentration": Decimal(0)}, "premix_out_of_range"),
        ({"residual_concentration": Decimal("1.01")}, "residual_out_of_range"),
    ],
)
def test_a_figure_out_of_range_is_refused_by_its_own_name(change, code):
    sound = Refill(Decimal(10), Decimal(5), Decimal("0.4"), Decimal("0.5"))
    with pytest.raises(CalculationError, match=f"^{code}: {next(iter(change.values()))}$"):
        refill(replace(sound, **change))


@pytest.mark.parametrize("glycol", GLYCOLS)
@given(data=st.data())
def test_degrees_read_lead_back_to_the_concentration_that_begins_to_freeze_there(glycol, data):
    warmest, coldest = warmest_and_coldest(glycol)
    freeze = data.draw(st.decimals(coldest, warmest, places=1))
    assert freeze_point(Fraction(concentration_at(freeze, glycol)), glycol) == freeze


@pytest.mark.parametrize("glycol", GLYCOLS)
@given(share=st.fractions("1/10", "6/10"))
def test_a_concentration_leads_to_degrees_that_lead_back_to_it(glycol, share):
    """They agree to half a tenth of a degree: at most 0.0014 of the volume where the table is flattest."""
    concentration = concentration_at(freeze_point(share, glycol), glycol)
    assert abs(Fraction(concentration) - share) <= Fraction(15, 10_000)


@pytest.mark.parametrize(
    ("freeze", "glycol", "share"),
    [
        ("-3.6", "ethylene", "0.1000"),
        ("-37.1", "ethylene", "0.5000"),
        ("-33.8", "ethylene", "0.4750"),
        ("-52.0", "ethylene", "0.6000"),
        ("-33.7", "propylene", "0.5000"),
        ("-24.8", "ethylene", "0.4000"),
    ],
)
def test_a_row_of_the_table_is_found_again_from_its_degrees(freeze, glycol, share):
    assert concentration_at(Decimal(freeze), glycol) == Decimal(share)


@pytest.mark.parametrize("freeze", ["-3.5", "0", "12", "-52.1", "-80"])
def test_degrees_outside_the_table_are_refused(freeze):
    with pytest.raises(CalculationError, match=f"^residual_out_of_range: {freeze}$"):
        concentration_at(Decimal(freeze), "ethylene")


@pytest.mark.parametrize(
    ("words", "glycol"),
    [
        ("organic acid, ethylene glycol", "ethylene"),
        ("hybrid, Propylene Glycol", "propylene"),
        ("organic acid, monoethylene glycol", "ethylene"),
        ("organic acid", None),
        ("polyethylene glycol", None),
        ("ethylene glycol and propylene glycol", None),
    ],
)
def test_the_glycol_is_what_the_specification_names(words, glycol):
    assert glycol_named(words) == glycol
