"""Weighing: the verdict against the formula worked in long decimals, beside the worked cases; and the phone's own."""

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
    with pytest.raises(CalculationError, match=f"^{told}$"):
        weigh(replace(BOLTS, **change))


ON_THE_PHONE = Path(__file__).with_name("weigh_all.mjs")


def at_random(seed: int, n: int) -> Iterator[Weighing]:
    """Weighings of every kind: trusted, on the edge of it, never to be trusted, refused."""
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


def result_of(asked: Weighing) -> dict[str, Any]:
    try:
        weighed = weigh(asked)
    except CalculationError as refusal:
        return {"error": str(refusal)}
    return asdict(weighed) | {"estimate": format(weighed.estimate, "f"), "sd": format(weighed.sd, "f")}


def sent(asked: Weighing) -> dict[str, Any]:
    return {name: format(given, "f") if isinstance(given, Decimal) else given for name, given in asdict(asked).items()}


def test_the_phone_weighs_6000_bags_to_the_same_result():
    weighed = list(at_random(20261125, 6000))
    given = json.dumps([sent(each) for each in weighed])
    run = subprocess.run(["node", ON_THE_PHONE], input=given, capture_output=True, text=True, check=False, timeout=120)
    assert run.returncode == 0, run.stderr
    answers = json.loads(run.stdout)
    expected = [result_of(each) for each in weighed]
    assert len(answers) == len(expected)
    for each, answer, result in zip(weighed, answers, expected, strict=True):
        assert answer == result, each
    kinds = Counter(each.get("error", str(each.get("trust"))).partition(":")[0] for each in expected)
    assert min(kinds[kind] for kind in ("True", "False", "sample_too_small", "bad_mass")) > 20, kinds
