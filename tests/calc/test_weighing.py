"""Weighing: the verdict against the formula worked in long decimals, beside the worked cases."""

from dataclasses import replace
from decimal import Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.weighing import Weighing, weigh
from shop.calc.refusal import Refusal

HALF, QUARTER = Decimal("0.5"), Decimal("0.25")
BOLTS = Weighing(20, Decimal("118.6"), Decimal("284.4"), Decimal("0.1"), Decimal("0.01"), 48)

weighings = st.builds(
    Weighing,
    sample_count=st.integers(10, 60),
    sample_mass=st.decimals("0.1", "500", places=1),
    batch_mass=st.decimals("10", "2000", places=1),
    scale_step=st.sampled_from([Decimal("0"), Decimal("0.01"), Decimal("0.1"), Decimal("1")]),
    piece_variation=st.decimals("0", "0.05", places=3),
    expected=st.one_of(st.none(), st.integers(0, 300)),
    tare=st.decimals("0", "10", places=1),
)


def by_the_formula(asked: Weighing) -> tuple[Decimal, Decimal]:
    """N and sd to a hundred digits."""
    with localcontext() as context:
        context.prec = 100
        piece = asked.sample_mass / asked.sample_count
        pieces = (asked.batch_mass - asked.tare) / piece
        step = asked.scale_step / Decimal(12).sqrt()
        spread = asked.piece_variation**2 * (pieces + pieces**2 / asked.sample_count)
        return pieces, (spread + (step / piece) ** 2 * (1 + (pieces / asked.sample_count) ** 2)).sqrt()


@given(weighings)
def test_estimate_deviation_and_trust_are_those_of_the_formula(asked):
    pieces, sd = by_the_formula(asked)
    weighed = weigh(asked)
    assert abs(weighed.estimate - pieces) <= Decimal("0.005")
    assert abs(weighed.sd - sd) <= Decimal("0.0005")
    apart = abs(pieces - pieces.to_integral_value())
    if abs(3 * sd - HALF) > Decimal("1e-50") and abs(apart - QUARTER) > Decimal("1e-50"):
        assert weighed.trust == (3 * sd < HALF and apart < QUARTER)


@given(weighings)
def test_a_count_is_given_exactly_when_it_is_trusted(asked):
    weighed = weigh(asked)
    assert (weighed.count is not None) == weighed.trust == (weighed.action is None)
    assert (weighed.difference is not None) == (weighed.trust and asked.expected is not None)
    if weighed.difference is not None:
        assert weighed.difference == weighed.count - asked.expected
        assert abs(weighed.count - weighed.estimate) <= QUARTER + Decimal("0.005")


@given(weighings, st.decimals("0", "0.05", places=3), st.sampled_from([Decimal("0"), Decimal("0.5")]))
def test_a_coarser_scale_or_more_uneven_pieces_never_make_it_trusted(asked, uneven, coarser):
    worse = replace(asked, piece_variation=asked.piece_variation + uneven, scale_step=asked.scale_step + coarser)
    one, other = weigh(asked), weigh(worse)
    assert one.trust or not other.trust
    assert (one.estimate, one.sd) == (other.estimate, min(one.sd, other.sd))


@given(weighings, st.integers(0, 300))
def test_as_many_pieces_as_lie_there_are_counted_when_they_weigh_the_same(asked, pieces):
    even = replace(
        asked, piece_variation=Decimal(0), scale_step=Decimal(0), sample_mass=asked.sample_count * asked.sample_mass
    )
    weighed = weigh(replace(even, batch_mass=asked.tare + pieces * asked.sample_mass))
    assert (weighed.count, weighed.sd, weighed.trust) == (pieces, 0, True)


@given(weighings)
def test_the_unit_of_mass_does_not_matter(asked):
    masses = ("sample_mass", "batch_mass", "scale_step", "tare")
    assert weigh(replace(asked, **{name: getattr(asked, name) * 1000 for name in masses})) == weigh(asked)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"sample_count": 9}, "sample_too_small: 9"),
        ({"sample_mass": Decimal("-1")}, "bad_mass: sample -1"),
        ({"tare": Decimal("284.5")}, "bad_mass: batch 284.4 below tare 284.5"),
    ],
)
def test_a_weighing_that_says_nothing_is_refused(change, told):
    with pytest.raises(Refusal, match=f"^{told}$"):
        weigh(replace(BOLTS, **change))
