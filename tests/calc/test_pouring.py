"""Figures for pouring and reading: tenths of a litre that add up, and no overstated frost protection."""

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from kitting.calc import pouring
from kitting.calc.coolant import Mix, Refill, refill

D = Decimal
LITRES = st.decimals("0", "40", places=3)


def mix(capacity: D, drained: D, residual: D, premix: D) -> Mix:
    return refill(
        Refill(
            capacity_before=capacity,
            drained=drained,
            residual_concentration=residual,
            target_concentration=D("0.5"),
            premix_concentration=premix,
        )
    )


@given(LITRES, st.decimals("0", "1", places=3), st.decimals("0", "1", places=2), st.sampled_from(["0.4", "0.5", "0.6"]))
def test_what_is_poured_adds_up_and_is_within_a_step_of_the_exact_mix(
    capacity: D, share: D, residual: D, premix: str
) -> None:
    exact = mix(capacity, (capacity * share).quantize(D("0.001")), residual, D(premix))
    volumes = pouring.volumes_to_pour(exact)
    assert (volumes is None) == (exact.status != "ok")
    if volumes is None or exact.concentrate is None or exact.premix is None:
        return
    step = D("0.01") if exact.fill < 1 else D("0.1")
    assert (
        volumes.concentrate + volumes.water
        == volumes.premix + volumes.premix_concentrate + volumes.premix_water
        == volumes.fill
    )
    pairs = [(volumes.fill, exact.fill), (volumes.concentrate, exact.concentrate), (volumes.premix, exact.premix)]
    assert all(
        abs(poured_volume - exact_volume) <= step / 2 and poured_volume % step == 0
        for poured_volume, exact_volume in pairs
    )
    assert min(volumes.water, volumes.premix_concentrate, volumes.premix_water) >= 0


@given(st.decimals("0", "40", places=3), st.decimals("0", "5", places=3))
def test_no_less_is_drained_than_has_to_and_no_more_than_there_is(exact: D, above: D) -> None:
    capacity = exact + above
    volumes = pouring.drained_at_least(exact, capacity)
    assert exact <= volumes <= capacity
    assert volumes == capacity or (volumes - exact < D("0.1") and volumes * 100 % 1 == 0)


def test_degrees_are_whole_and_never_colder_than_the_mix_stands() -> None:
    assert [str(pouring.degrees(D(text))) for text in ("-37.1", "-37.0", "-36.9", "-3.6", "-0.4")] == [
        "-37",
        "-37",
        "-36",
        "-3",
        "0",
    ]


def test_per_cents_are_whole_and_a_small_volume_is_measured_in_a_small_jug() -> None:
    assert [str(pouring.percent(D(text))) for text in ("0.4748", "0.475", "0")] == ["47", "48", "0"]
    assert [str(pouring.litres(D(text))) for text in ("0.999", "1", "0.4049", "12.25")] == [
        "1.00",
        "1.0",
        "0.40",
        "12.3",
    ]
    assert Fraction(pouring.litres(D("6.37"))) == Fraction(64, 10)


def test_what_goes_in_beside_premix_is_water_where_the_premix_is_strong_and_concentrate_where_it_is_weak() -> None:
    strong, weak = (pouring.volumes_to_pour(mix(D(10), D(9), D("0.5"), D(premix))) for premix in ("0.6", "0.4"))
    assert strong is not None and weak is not None
    assert (strong.premix, strong.premix_water, strong.premix_concentrate) == (D("7.5"), D("1.5"), D("0.0"))
    assert (weak.premix, weak.premix_water, weak.premix_concentrate) == (D("7.5"), D("0.0"), D("1.5"))
