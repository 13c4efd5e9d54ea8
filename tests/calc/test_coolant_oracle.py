"""A second implementation of coolant from its document: all figures, freeze points, and draining less."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kitting.calc.coolant import Refill, freeze_point, refill
from tests.calc.test_coolant import refills
from tests.calc.test_landed_oracle import half_up
from tests.examples import many

ETHYLENE = "-3.6 -6.2 -9.0 -12.1 -15.7 -19.9 -24.8 -30.5 -37.1 -44.4 -52.0"
PROPYLENE = "-3.4 -5.2 -7.4 -10.0 -13.1 -16.9 -21.5 -27.0 -33.7 -41.6 -51.1"
TABLES = {"ethylene": ETHYLENE.split(), "propylene": PROPYLENE.split()}

allowances = st.sampled_from([Decimal(0), Decimal("0.05"), Decimal("0.1")])
anything = st.builds(
    lambda coolant, order, aux: replace(coolant, order_allowance=order, aux_allowance=aux),
    refills(),
    allowances,
    allowances,
)


def freezes_at(share: Fraction, glycol: str) -> Fraction | None:
    """Linear interpolation between two rows of the table."""
    table = {Fraction(10 + 5 * at, 100): Fraction(point) for at, point in enumerate(TABLES[glycol])}
    below, above = [row for row in table if row <= share], [row for row in table if row >= share]
    if not below or not above:
        return None
    low, high = max(below), min(above)
    part = (share - low) / (high - low) if high > low else 0
    return half_up(table[low] + part * (table[high] - table[low]), 1)


@settings(max_examples=many(300))
@given(anything)
def test_every_figure_is_what_the_document_says(refill_input: Refill) -> None:
    mix, share = refill(refill_input), Fraction(refill_input.premix_concentration)
    stays = Fraction(refill_input.capacity_before) - Fraction(refill_input.drained)
    volume = Fraction(refill_input.capacity_before) + Fraction(refill_input.added_to_circuit)
    fill, target = volume - stays, Fraction(refill_input.target_concentration)
    glycol = volume * target - stays * Fraction(refill_input.residual_concentration)
    only_premix = (stays * Fraction(refill_input.residual_concentration) + fill * share) / volume
    aux = Fraction(refill_input.aux_circuit) * (1 + Fraction(refill_input.aux_allowance))
    assert (mix.residual, mix.capacity_after, mix.fill) == (half_up(stays, 3), half_up(volume, 3), half_up(fill, 3))
    assert mix.premix_only_concentration == half_up(only_premix, 4)
    assert mix.aux_premix == half_up(aux, 3)
    assert mix.status == ("drain_more" if glycol > fill else "too_strong" if glycol < 0 else "ok")
    assert refill_input.glycol is not None
    assert mix.target_freeze == freezes_at(target, refill_input.glycol)
    assert mix.premix_only_freeze == freezes_at(only_premix, refill_input.glycol)
    if mix.status == "ok":
        beside = (glycol - fill * share) / (1 - share)
        premix, top_up = fill - beside if beside >= 0 else glycol / share, Fraction(refill_input.top_up)
        more = 1 + Fraction(refill_input.order_allowance)
        assert (mix.concentrate, mix.water) == (half_up(glycol, 3), half_up(fill, 3) - half_up(glycol, 3))
        assert mix.premix_concentrate == half_up(max(beside, Fraction(0)), 3)
        assert abs(Fraction(mix.premix or 0) - premix) <= Fraction(1, 1000)
        assert mix.premix_water == Fraction(mix.fill) - Fraction(mix.premix or 0) - Fraction(
            mix.premix_concentrate or 0
        )
        assert mix.order_concentrate == half_up(glycol * more + top_up * target, 3)
        assert mix.order_premix == half_up(premix * more + top_up + aux, 3)


def strength_after(refill_input: Refill, drained: Decimal, pure: int) -> Fraction:
    """The concentration of the circuit when the fill is all concentrate (1) or all water (0)."""
    stays = Fraction(refill_input.capacity_before) - Fraction(drained)
    volume = Fraction(refill_input.capacity_before) + Fraction(refill_input.added_to_circuit)
    return (stays * Fraction(refill_input.residual_concentration) + (volume - stays) * pure) / volume


@given(anything)
def test_what_it_says_to_drain_reaches_the_target_with_pure_concentrate_or_water_and_less_does_not(
    refill_input: Refill,
) -> None:
    mix, target = refill(refill_input), Fraction(refill_input.target_concentration)
    assume(mix.drain_at_least is not None)
    assert mix.drain_at_least is not None
    less = mix.drain_at_least - Decimal("0.001")
    if mix.status == "drain_more":
        assert strength_after(refill_input, mix.drain_at_least, 1) >= target > strength_after(refill_input, less, 1)
    else:
        assert strength_after(refill_input, mix.drain_at_least, 0) <= target < strength_after(refill_input, less, 0)
    assert mix.drain_at_least <= refill_input.capacity_before


@given(refills(), st.decimals("0", "5", places=3))
def test_more_drained_never_keeps_from_the_target_what_less_reached(refill_input: Refill, more: Decimal) -> None:
    drained = min(refill_input.drained + more, refill_input.capacity_before)
    if refill(refill_input).status == "ok":
        assert refill(replace(refill_input, drained=drained)).status == "ok"


@pytest.mark.parametrize("glycol", sorted(TABLES))
def test_every_row_of_the_table_is_there(glycol: str) -> None:
    rows = {Fraction(10 + 5 * at, 100): Decimal(point) for at, point in enumerate(TABLES[glycol])}
    assert {share: freeze_point(share, glycol) for share in rows} == rows  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("drained", "strong", "target", "poured"),
    [("4", "0.5", "0.3", ("0.000", "4.000")), ("5", "0", "0.5", ("5.000", "0.000"))],
)
def test_pure_water_or_pure_concentrate_is_still_a_mix(
    drained: str, strong: str, target: str, poured: tuple[str, str]
) -> None:
    mix = refill(Refill(Decimal(10), Decimal(drained), Decimal(strong), Decimal(target)))
    assert (mix.status, mix.drain_at_least) == ("ok", None)
    assert (str(mix.concentrate), str(mix.water)) == poured
