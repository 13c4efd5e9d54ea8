"""The verdict of weighing, compared with the formula in long decimals and with the phone's implementation."""

import json
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, replace
from decimal import Decimal, localcontext
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.weighing import Weighing, weigh
from shop.calc.errors import CalculationError

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


def by_the_formula(weighing: Weighing) -> tuple[Decimal, Decimal]:
    """(N, sd) to a hundred digits."""
    with localcontext() as context:
        context.prec = 100
        piece = weighing.sample_mass / weighing.sample_count
        pieces = (weighing.batch_mass - weighing.tare) / piece
        step = weighing.scale_step / Decimal(12).sqrt()
        spread = weighing.piece_variation**2 * (pieces + pieces**2 / weighing.sample_count)
        return pieces, (spread + (step / piece) ** 2 * (1 + (pieces / weighing.sample_count) ** 2)).sqrt()


@given(weighings)
def test_estimate_deviation_and_trust_are_those_of_the_formula(weighing):
    pieces, sd = by_the_formula(weighing)
    weighed = weigh(weighing)
    assert abs(weighed.estimate - pieces) <= Decimal("0.005")
    assert abs(weighed.sd - sd) <= Decimal("0.0005")
    apart = abs(pieces - pieces.to_integral_value())
    if abs(3 * sd - HALF) > Decimal("1e-50") and abs(apart - QUARTER) > Decimal("1e-50"):
        assert weighed.trust == (3 * sd < HALF and apart < QUARTER)


@given(weighings)
def test_a_count_is_given_exactly_when_it_is_trusted(weighing):
    weighed = weigh(weighing)
    assert (weighed.count is not None) == weighed.trust == (weighed.action is None)
    assert (weighed.difference is not None) == (weighed.trust and weighing.expected is not None)
    if weighed.difference is not None:
        assert weighed.difference == weighed.count - weighing.expected
        assert abs(weighed.count - weighed.estimate) <= QUARTER + Decimal("0.005")


@given(weighings, st.decimals("0", "0.05", places=3), st.sampled_from([Decimal("0"), Decimal("0.5")]))
def test_a_coarser_scale_or_more_uneven_pieces_never_make_it_trusted(weighing, uneven, coarser):
    worse = replace(
        weighing, piece_variation=weighing.piece_variation + uneven, scale_step=weighing.scale_step + coarser
    )
    first, second = weigh(weighing), weigh(worse)
    assert first.trust or not second.trust
    assert (first.estimate, first.sd) == (second.estimate, min(first.sd, second.sd))


@given(weighings, st.integers(0, 300))
def test_as_many_pieces_as_lie_there_are_counted_when_they_weigh_the_same(weighing, pieces):
    even = replace(
        weighing,
        piece_variation=Decimal(0),
        scale_step=Decimal(0),
        sample_mass=weighing.sample_count * weighing.sample_mass,
    )
    weighed = weigh(replace(even, batch_mass=weighing.tare + pieces * weighing.sample_mass))
    assert (weighed.count, weighed.sd, weighed.trust) == (pieces, 0, True)


@given(weighings)
def test_the_unit_of_mass_does_not_matter(weighing):
    masses = ("sample_mass", "batch_mass", "scale_step", "tare")
    assert weigh(replace(weighing, **{name: getattr(weighing, name) * 1000 for name in masses})) == weigh(weighing)


@pytest.mark.parametrize(
    ("change", "culprit"),
    [
        ({"sample_count": 9}, "sample_too_small: 9"),
        ({"sample_mass": Decimal("-1")}, "bad_mass: sample -1"),
        ({"tare": Decimal("284.5")}, "bad_mass: batch 284.4 below tare 284.5"),
    ],
)
def test_a_weighing_that_says_nothing_is_refused(change, culprit):
    with pytest.raises(CalculationError, match=f"^{culprit}$"):
        weigh(replace(BOLTS, **change))


ON_THE_PHONE = Path(__file__).with_name("weigh_all.mjs")


def at_random(seed: int, n: int) -> Iterator[Weighing]:
    """Weighings of every kind: trusted, at the limit, never trusted, refused."""
    chance = Random(seed)
    for _ in range(n):
        pieces, places = chance.randint(8, 120), chance.randint(0, 3)
        piece = Decimal(chance.randint(1, 9999)).scaleb(-chance.randint(0, 3))
        tare = Decimal(chance.choice([0, 0, chance.randint(0, 99999)])).scaleb(-places)
        lying = (
            chance.randint(0, 4 * pieces) + Decimal(chance.choice([0, 0, 0, 25, 50, 75, chance.randint(-40, 40)])) / 100
        )
        yield Weighing(
            sample_count=pieces,
            sample_mass=chance.choice([piece * pieces, Decimal(chance.randint(0, 99999)).scaleb(-places)]),
            batch_mass=chance.choice([piece * lying + tare, Decimal(chance.randint(0, 999999)).scaleb(-places)]),
            scale_step=Decimal(chance.choice(["0", "0.001", "0.01", "0.05", "0.1", "0.5", "1", "5"])),
            piece_variation=Decimal(chance.randint(0, 60)).scaleb(-3),
            expected=chance.choice([None, 0, chance.randint(0, 500)]),
            tare=tare,
        )


def result_of(weighing: Weighing) -> dict[str, Any]:
    try:
        weighed = weigh(weighing)
    except CalculationError as refusal:
        return {"error": str(refusal)}
    return asdict(weighed) | {"estimate": format(weighed.estimate, "f"), "sd": format(weighed.sd, "f")}


def sent(weighing: Weighing) -> dict[str, Any]:
    return {
        name: format(value, "f") if isinstance(value, Decimal) else value for name, value in asdict(weighing).items()
    }


def test_the_phone_weighs_6000_bags_to_the_same_result():
    weighed = list(at_random(20261125, 6000))
    text = json.dumps([sent(weighing) for weighing in weighed])
    run = subprocess.run(["node", ON_THE_PHONE], input=text, capture_output=True, text=True, check=False, timeout=120)
    assert run.returncode == 0, run.stderr
    answers = json.loads(run.stdout)
    expected = [result_of(weighing) for weighing in weighed]
    assert len(answers) == len(expected)
    for weighing, answer, result in zip(weighed, answers, expected, strict=True):
        assert answer == result, weighing
    kinds = Counter(result.get("error", str(result.get("trust"))).partition(":")[0] for result in expected)
    assert min(kinds[kind] for kind in ("True", "False", "sample_too_small", "bad_mass")) > 20, kinds
