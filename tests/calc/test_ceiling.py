"""The ceiling of extra work, compared with a second implementation in fractions, and properties of every rule."""

from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from math import floor
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.ceiling import NEEDED_FIGURES, CeilingInput, CeilingRule, judge_ceiling
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason

SEVERITY = {"within": 0, "near": 1, "ask": 2}
ALL_FIGURES = CeilingRule("banded", percent=D(10), floor=D(100), cap=D(500), maximum=D(4500))


def units(largest: int, exponent: int) -> st.SearchStrategy[D]:
    return st.integers(0, largest).map(lambda count: D(count).scaleb(-exponent))


@st.composite
def overruns(draw: st.DrawFn) -> CeilingInput:
    exponent = draw(st.sampled_from([0, 2, 3]))
    rule = CeilingRule(
        kind=draw(st.sampled_from(sorted(NEEDED_FIGURES))),
        percent=draw(st.decimals("0", "40", places=1)),
        floor=draw(units(9_000, exponent)),
        cap=draw(units(20_000, exponent)),
        maximum=draw(units(150_000, exponent)),
    )
    return CeilingInput(
        rule=rule,
        agreed=draw(units(100_000, exponent)),
        used=draw(units(8_000, exponent)),
        extra=draw(units(8_000, exponent)),
        exponent=exponent,
    )


def ceiling_oracle(overrun: CeilingInput) -> Fraction:
    rule, agreed = overrun.rule, Fraction(overrun.agreed)
    share = agreed * Fraction(rule.percent) / 100
    amount = {
        "none": Fraction(0),
        "percent": share,
        "percent_capped": min(share, Fraction(rule.cap)),
        "banded": min(Fraction(rule.cap), max(Fraction(rule.floor), share)),
        "maximum": max(Fraction(rule.maximum) - agreed, Fraction(0)),
    }[rule.kind]
    return Fraction(floor(amount * 10**overrun.exponent + Fraction(1, 2)), 10**overrun.exponent)


@given(overruns())
def test_ceiling_left_and_status_are_those_of_the_rule(overrun: CeilingInput) -> None:
    check, ceiling = judge_ceiling(overrun), ceiling_oracle(overrun)
    spent = Fraction(overrun.used) + Fraction(overrun.extra)
    assert check.ceiling == ceiling
    assert check.left == max(ceiling - spent, 0)
    assert check.status == ("ask" if spent > ceiling else "near" if spent * 5 > ceiling * 4 else "within")


@given(overruns(), st.decimals("0", "50", places=2))
def test_more_spent_leaves_less_and_is_never_less_serious(overrun: CeilingInput, more: D) -> None:
    first, second = judge_ceiling(overrun), judge_ceiling(replace(overrun, extra=overrun.extra + more))
    assert (second.ceiling, second.left) == (
        first.ceiling,
        max(first.left - more, min(first.left, D(0))) if first.left else 0,
    )
    assert SEVERITY[second.status] >= SEVERITY[first.status]


@given(overruns(), st.sampled_from(["percent", "floor", "cap", "maximum"]), st.decimals("0", "50", places=2))
def test_a_larger_figure_of_a_rule_never_lowers_the_ceiling(overrun: CeilingInput, name: str, more: D) -> None:
    first = judge_ceiling(overrun)
    larger = replace(overrun.rule, **{name: getattr(overrun.rule, name) + more})
    second = judge_ceiling(replace(overrun, rule=larger))
    assert second.ceiling >= first.ceiling and second.left >= first.left
    if name not in NEEDED_FIGURES[overrun.rule.kind]:
        assert second == first


@given(overruns(), st.integers(0, 500).map(D))
def test_more_agreed_raises_a_percentage_and_lowers_what_a_maximum_allows(overrun: CeilingInput, more: D) -> None:
    first, second = judge_ceiling(overrun), judge_ceiling(replace(overrun, agreed=overrun.agreed + more))
    if overrun.rule.kind == "maximum":
        assert first.ceiling - more <= second.ceiling <= first.ceiling
    else:
        assert second.ceiling >= first.ceiling


@given(overruns(), st.booleans())
def test_it_does_not_matter_what_was_used_before_and_what_is_extra(overrun: CeilingInput, all_before: bool) -> None:
    spent = overrun.used + overrun.extra
    swapped = replace(overrun, used=spent if all_before else D(0), extra=D(0) if all_before else spent)
    first, second = judge_ceiling(overrun), judge_ceiling(swapped)
    assert (first.ceiling, first.left, first.status) == (second.ceiling, second.left, second.status)


@given(overruns())
def test_the_last_figure_of_the_steps_is_the_ceiling(overrun: CeilingInput) -> None:
    *steps, spent = judge_ceiling(overrun).steps
    reached = Fraction(0)
    for step in steps:
        if step.code == "percent":
            reached = Fraction(step.named["agreed"]) * Fraction(step.named["percent"]) / 100
        elif step.code == "maximum":
            reached = max(Fraction(step.named["maximum"]) - Fraction(step.named["agreed"]), Fraction(0))
        elif step.code != "none":
            assert reached < step.named["floor"] if step.code == "floor" else reached > step.named["cap"]
            reached = Fraction(step.named[step.code])
    assert abs(reached - Fraction(spent.named["ceiling"])) * 2 * 10**overrun.exponent <= 1
    assert (spent.named["used"], spent.named["extra"]) == (overrun.used, overrun.extra)


def test_the_steps_of_a_banded_rule_name_the_figure_that_decides() -> None:
    last = Reason.of("spent", used=D(0), extra=D(0), ceiling=D("100.00"))
    assert judge_ceiling(CeilingInput(ALL_FIGURES, D(300))).steps == (
        Reason.of("percent", agreed=D(300), percent=D(10)),
        Reason.of("floor", floor=D(100)),
        last,
    )
    assert judge_ceiling(CeilingInput(ALL_FIGURES, D(1000))).steps == (
        Reason.of("percent", agreed=D(1000), percent=D(10)),
        last,
    )
    codes = [step.code for step in judge_ceiling(CeilingInput(ALL_FIGURES, D(90000))).steps]
    assert codes == ["percent", "cap", "spent"]


def test_a_cap_below_the_floor_wins() -> None:
    assert judge_ceiling(CeilingInput(replace(ALL_FIGURES, cap=D(50)), D(300))).ceiling == 50


@pytest.mark.parametrize("kind", sorted(NEEDED_FIGURES))
def test_a_rule_needs_the_figures_of_its_kind_and_no_others(kind: str) -> None:
    rule, needed = replace(ALL_FIGURES, kind=kind), NEEDED_FIGURES[kind]
    bare = CeilingRule(kind, **{name: getattr(rule, name) for name in needed})
    others = {name: D(-1) for name in ("percent", "floor", "cap", "maximum") if name not in needed}
    assert judge_ceiling(CeilingInput(bare, D(1000))) == judge_ceiling(CeilingInput(replace(rule, **others), D(1000)))
    for name in needed:
        for figure, culprit in ((None, f"without {name}"), (D("-0.01"), f"with {name} -0.01")):
            with pytest.raises(CalculationError) as refused:
                judge_ceiling(CeilingInput(replace(bare, **{name: figure}), D(1000)))
            assert str(refused.value) == f"bad_rule: {kind} {culprit}"


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"agreed": D("-0.01")}, "negative_amount: agreed -0.01"),
        ({"used": D(-1)}, "negative_amount: used -1"),
        ({"extra": D(-1)}, "negative_amount: extra -1"),
        ({"rule": CeilingRule("Percent", D(10))}, "unknown_rule: Percent"),
        ({"rule": CeilingRule("percent", 2.5)}, "not_exact: percent 2.5"),
        ({"extra": 0.5}, "not_exact: extra 0.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        judge_ceiling(replace(CeilingInput(ALL_FIGURES, D(1000)), **fields))
    assert str(refused.value) == refusal
