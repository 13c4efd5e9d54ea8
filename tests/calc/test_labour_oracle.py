"""A second implementation of labour from its document, in fractions, independent of the code."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from math import floor
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.labour import KitEntry, KitOperation, LabourInput, LabourOperation, Overlap, SharingRule, charge_labour
from shop.calc.errors import CalculationError
from tests.calc.test_labour import RATES, visits
from tests.examples import many

NOTHING = Fraction(0)


def half_up(amount: Fraction, places: int) -> Fraction:
    return Fraction(floor(amount * 10**places + Fraction(1, 2)), 10**places)


def reached(code: str, operations: dict[str, LabourOperation]) -> set[str]:
    """All operations that `code` includes, directly or indirectly."""
    direct = set(operations[code].includes)
    return direct.union(*(reached(inner, operations) for inner in direct))


def first_fit_of(kit: KitEntry, code: str, kits: Iterable[KitEntry]) -> Fraction:
    others = (named.code for other in kits if other.code != kit.code for named in other.operations)
    return Fraction(1) if code in others else Fraction(kit.first_fit)


def together(kits: tuple[KitEntry, ...], visit: LabourInput) -> dict[str, Fraction]:
    """Steps 0 to 3: {operation: exact hours}."""
    operations = {operation.code: operation for operation in visit.operations}
    hours_by_code: dict[str, list[Fraction]] = {}
    for kit in kits:
        for named in kit.operations:
            hours_by_code.setdefault(named.code, []).append(Fraction(named.hours) * first_fit_of(kit, named.code, kits))
    gathered = {
        c: max(all) if operations[c].sharing is SharingRule.ONCE else sum(all) for c, all in hours_by_code.items()
    }
    charged = after_inclusion(gathered, operations)
    taken = dict.fromkeys(gathered, NOTHING)
    for pair in visit.overlaps:
        if charged.get(pair.a, 0) > 0 and charged.get(pair.b, 0) > 0:
            taken[min((pair.a, pair.b), key=lambda c: (gathered[c], [-ord(c)]))] += Fraction(pair.hours)
    return {code: max(charged[code] - taken[code], NOTHING) for code in gathered}


def after_inclusion(gathered: dict[str, Any], operations: dict[str, LabourOperation]) -> dict[str, Fraction]:
    hosts = {code: [outer for outer in gathered if code in reached(outer, operations)] for code in gathered}
    charged = {code: NOTHING if hosts[code] else gathered[code] for code in gathered}
    for code, around in hosts.items():
        if around:
            host = min((outer for outer in around if not hosts[outer]), key=lambda outer: (-gathered[outer], outer))
            charged[host] = max(charged[host], gathered[code])
    return charged


def lines_of(kits: tuple[KitEntry, ...], visit: LabourInput) -> dict[str, Fraction]:
    """Steps 0 to 5: {operation: hours to a tenth}."""
    exposed = {operation.code: operation.exposed for operation in visit.operations}
    factor = Fraction(visit.condition_factor)
    exact = together(kits, visit)
    return {code: half_up(hours * (factor if exposed[code] else 1), 1) for code, hours in exact.items()}


@settings(max_examples=many(150))
@given(visits(), st.sampled_from([0, 2, 3]))
def test_hours_and_prices_are_what_the_document_says_step_by_step(visit: LabourInput, exponent: int) -> None:
    visit = replace(visit, exponent=exponent)
    labour, lines = charge_labour(visit), lines_of(visit.kits, visit)
    assert {line.code: line.hours for line in labour.lines} == lines
    assert labour.hours == sum(lines.values())
    assert labour.together_hours == sum(together(visit.kits, visit).values())
    skills = {operation.code: operation.skill for operation in visit.operations}
    for skill in labour.skills:
        assert skill.hours == sum(hours for code, hours in lines.items() if skills[code] == skill.skill)
        assert skill.price == half_up(Fraction(skill.hours) * Fraction(RATES[skill.skill]), exponent)
    assert {skill.skill for skill in labour.skills} == {skills[code] for code in lines}
    assert labour.total == sum(skill.price for skill in labour.skills)


@given(visits())
def test_a_kit_alone_and_left_out_is_judged_on_the_kits_that_are_left(visit: LabourInput) -> None:
    labour = charge_labour(visit)
    codes = [kit.code for kit in visit.kits]
    assert [kit.code for kit in labour.kits] == list(dict.fromkeys(codes))
    whole = sum(lines_of(visit.kits, visit).values())
    for kit in labour.kits:
        at = codes.index(kit.code)
        alone = (visit.kits[at],)
        assert kit.alone_hours == sum(together(alone, visit).values())
        assert kit.alone_charged == sum(lines_of(alone, visit).values())
        others = visit.kits[:at] + visit.kits[at + 1 :]
        assert kit.marginal_hours == whole - sum(lines_of(others, visit).values())


@given(visits())
def test_no_line_is_below_nothing_and_none_is_above_what_was_asked_and_the_condition_adds(visit: LabourInput) -> None:
    lines = charge_labour(visit).lines
    most = visit.condition_factor * max((line.gathered for line in lines), default=D(0)) + D("0.05")
    assert all(0 <= line.hours <= most for line in lines)


@given(visits())
def test_a_worse_vehicle_never_takes_less_and_only_exposed_work_takes_more(visit: LabourInput) -> None:
    easy, hard = (charge_labour(replace(visit, condition_factor=D(factor))) for factor in ("1", "1.37"))
    exposed = {operation.code: operation.exposed for operation in visit.operations}
    for first, second in zip(easy.lines, hard.lines, strict=True):
        assert first.hours <= second.hours
        assert exposed[first.code] or first.hours == second.hours
    assert (easy.together_hours, easy.overlap_hours) == (hard.together_hours, hard.overlap_hours)


@given(visits(), st.decimals("0.1", "3", places=1))
def test_a_larger_overlap_never_makes_the_visit_longer(visit: LabourInput, more: D) -> None:
    longer = tuple(replace(pair, hours=pair.hours + more) for pair in visit.overlaps)
    assert charge_labour(replace(visit, overlaps=longer)).hours <= charge_labour(visit).hours


FAULTS = {
    "unknown_operation": {"kits": (KitEntry("odd", (KitOperation("weld", D(1)),)),)},
    "negative_hours": {"kits": (KitEntry("odd", (KitOperation("a", D("-0.1")),)),)},
    "bad_factor": {"kits": (KitEntry("odd", (), D("0.99")),)},
}


@given(visits(), st.sampled_from(sorted(FAULTS)))
def test_one_fault_refuses_the_whole_quote_wherever_it_stands(visit: LabourInput, code: str) -> None:
    for kits in (visit.kits + FAULTS[code]["kits"], FAULTS[code]["kits"] + visit.kits):
        with pytest.raises(CalculationError) as refused:
            charge_labour(replace(visit, kits=kits))
        assert refused.value.code == code and refused.value.culprit


@given(visits(), st.sampled_from("abcdef"))
def test_a_loop_anywhere_in_the_list_is_refused_also_where_no_kit_asks(visit: LabourInput, code: str) -> None:
    ring = tuple(
        replace(operation, includes=("g",)) if operation.code == code else operation for operation in visit.operations
    )
    ring = tuple(replace(operation, includes=(code,)) if operation.code == "g" else operation for operation in ring)
    with pytest.raises(CalculationError, match="includes_loop"):
        charge_labour(replace(visit, operations=ring))


def test_of_two_as_long_the_code_that_sorts_later_is_shortened_however_the_pair_is_written() -> None:
    kits = (KitEntry("turbo", (KitOperation("a", D(1)), KitOperation("b", D(1)))),)
    operations = (LabourOperation("a", "mechanical"), LabourOperation("b", "mechanical"))
    for pair in (Overlap("a", "b", D("0.4")), Overlap("b", "a", D("0.4"))):
        lines = charge_labour(LabourInput(kits, operations, (pair,), rates=RATES)).lines
        assert [line.hours for line in lines] == [D("1.0"), D("0.6")]
