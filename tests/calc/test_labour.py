"""Hours of one visit: properties of any combination of kits. The worked cases are in the vectors."""

from dataclasses import replace
from decimal import Decimal as D
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.labour import (
    KitEntry,
    KitOperation,
    Labour,
    LabourInput,
    LabourLine,
    LabourOperation,
    Overlap,
    Reason,
    SharingRule,
    charge_labour,
)
from shop.calc.errors import CalculationError
from shop.calc.money import rounded

CODES = tuple("abcdefg")
RATES = {"mechanical": D("137.35"), "electrical": D("149.55")}

hours = st.sampled_from([D(0), D("0.5"), D(1), D(1), D(2)]) | st.decimals("0", "9", places=2)
factors = st.sampled_from([D(1), D("1.15"), D("1.5")])
named = st.lists(st.builds(KitOperation, st.sampled_from(CODES), hours), max_size=6).map(tuple)
overlaps = st.lists(
    st.builds(Overlap, st.sampled_from(CODES), st.sampled_from(CODES), hours).filter(lambda pair: pair.a != pair.b),
    max_size=5,
).map(tuple)


@st.composite
def operation_lists(draw: st.DrawFn) -> tuple[LabourOperation, ...]:
    """An operation includes only later ones, so there is never a loop."""
    return tuple(
        LabourOperation(
            code=code,
            skill=draw(st.sampled_from(sorted(RATES))),
            sharing=draw(st.sampled_from(SharingRule)),
            exposed=draw(st.booleans()),
            includes=tuple(sorted(draw(st.sets(st.sampled_from(CODES[at + 1 :]), max_size=2)))),
        )
        for at, code in enumerate(CODES[:-1])
    ) + (LabourOperation(CODES[-1], "mechanical"),)


@st.composite
def visits(draw: st.DrawFn) -> LabourInput:
    codes = draw(st.lists(st.sampled_from(["turbo", "brakes", "towing"]), max_size=4))
    entries = {code: KitEntry(code, draw(named), draw(factors)) for code in sorted(set(codes))}
    return LabourInput(
        kits=tuple(entries[code] for code in codes),
        operations=draw(operation_lists()),
        overlaps=draw(overlaps),
        condition_factor=draw(factors),
        rates=RATES,
    )


def figures(labour: Labour) -> tuple[object, ...]:
    """All figures, without the order of lines, skills and kits."""
    lines = {line.code: (line.hours, line.gathered, set(line.kit_hours), set(line.reasons)) for line in labour.lines}
    kits = {kit.code: kit for kit in labour.kits}
    return lines, set(labour.skills), kits, labour.hours, labour.together_hours, labour.overlap_hours, labour.total


def charged(labour: Labour) -> tuple[object, ...]:
    return {line.code: line.hours for line in labour.lines}, labour.hours, labour.skills, labour.total


@settings(deadline=None)
@given(visits(), st.randoms(use_true_random=False))
def test_no_figure_depends_on_the_order_of_anything(visit: LabourInput, chance: Any) -> None:
    def shuffled(items: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(chance.sample(items, len(items)))

    kits = tuple(replace(kit, operations=shuffled(kit.operations)) for kit in shuffled(visit.kits))
    turned = tuple(Overlap(pair.b, pair.a, pair.hours) for pair in shuffled(visit.overlaps))
    other = replace(visit, kits=kits, operations=shuffled(visit.operations), overlaps=turned)
    assert figures(charge_labour(other)) == figures(charge_labour(visit))


@settings(deadline=None)
@given(visits())
def test_together_is_never_more_than_alone_where_nothing_includes_and_no_each_overlaps(visit: LabourInput) -> None:
    overlapping = {code for pair in visit.overlaps for code in (pair.a, pair.b)}
    plain = tuple(
        replace(
            operation, includes=(), sharing=SharingRule.ONCE if operation.code in overlapping else operation.sharing
        )
        for operation in visit.operations
    )
    assert charge_labour(replace(visit, operations=plain)).overlap_hours >= 0


@settings(deadline=None)
@given(visits(), st.data())
def test_a_kit_listed_twice_changes_nothing_unless_something_is_each(visit: LabourInput, data: st.DataObject) -> None:
    once = tuple(replace(operation, sharing=SharingRule.ONCE) for operation in visit.operations)
    visit = replace(visit, operations=once)
    if visit.kits:
        again = data.draw(st.sampled_from(visit.kits))
        twice = charge_labour(replace(visit, kits=(*visit.kits, again)))
        assert charged(twice) == charged(charge_labour(visit))
        assert {kit.code: kit.marginal_hours for kit in twice.kits}[again.code] == 0


@settings(deadline=None)
@given(visits())
def test_a_kit_adds_what_leaving_it_out_saves(visit: LabourInput) -> None:
    labour = charge_labour(visit)
    for kit in labour.kits:
        at = [entry.code for entry in visit.kits].index(kit.code)
        without = charge_labour(replace(visit, kits=visit.kits[:at] + visit.kits[at + 1 :]))
        assert kit.marginal_hours == labour.hours - without.hours


@settings(deadline=None)
@given(visits())
def test_a_kit_alone_is_a_quote_of_that_kit(visit: LabourInput) -> None:
    labour = charge_labour(visit)
    alone = {kit.code: charge_labour(replace(visit, kits=(kit,))) for kit in visit.kits}
    for kit in labour.kits:
        assert kit.alone_hours == alone[kit.code].together_hours
        assert kit.alone_charged == alone[kit.code].hours
    assert labour.overlap_hours == sum(alone[kit.code].together_hours for kit in visit.kits) - labour.together_hours


@settings(deadline=None)
@given(visits())
def test_the_sums_are_the_sums_of_the_lines(visit: LabourInput) -> None:
    labour = charge_labour(visit)
    assert labour.hours == sum(line.hours for line in labour.lines) == sum(skill.hours for skill in labour.skills)
    assert labour.total == sum(rounded(skill.hours * RATES[skill.skill], 2) for skill in labour.skills)
    needed = {operation.code for kit in visit.kits for operation in kit.operations}
    assert {line.code for line in labour.lines} == needed


@settings(deadline=None)
@given(visits())
def test_the_reasons_of_a_line_lead_from_what_kits_asked_to_what_is_charged(visit: LabourInput) -> None:
    sharing = {operation.code: operation.sharing for operation in visit.operations}
    labour = charge_labour(visit)
    for line in labour.lines:
        assert check_reasons(line, sharing[line.code]) == line.hours


def check_reasons(line: LabourLine, sharing: SharingRule) -> D:
    """Derives the hours from `kit_hours` and the reasons alone."""
    hours = [entry.adjusted for entry in line.kit_hours]
    exact = max(hours) if sharing is SharingRule.ONCE else sum(hours, D(0))
    assert exact == line.gathered
    for reason in line.reasons:
        facts: dict[str, Any] = reason.named
        match reason.code:
            case "first_fit":
                assert any(entry.hours * facts["factor"] == facts["hours"] for entry in line.kit_hours)
            case "once" | "summed":
                assert exact in (facts.get("longest"), facts.get("hours"))
            case "included_in":
                assert facts["hours"] == line.gathered
                exact = D(0)
            case "raised_by":
                assert facts["hours"] > exact
                exact = facts["hours"]
            case "overlap":
                exact -= facts["hours"]
                assert exact >= 0
            case "condition":
                exact *= facts["factor"]
                assert exact == facts["hours"]
            case unknown:
                pytest.fail(unknown)
    return rounded(exact, 1)


@settings(deadline=None)
@given(visits())
def test_included_hours_are_never_lost(visit: LabourInput) -> None:
    labour = charge_labour(replace(visit, overlaps=(), condition_factor=D(1)))
    lines = {line.code: line for line in labour.lines}
    for line in labour.lines:
        for reason in line.reasons:
            if reason.code == "included_in":
                host = lines[str(reason.named["operation"])]
                assert host.hours >= rounded(line.gathered, 1)
                assert all(other.code != "included_in" for other in host.reasons)


def quote(**fields: Any) -> LabourInput:
    """Two kits that share the strip-down, which includes the belt; springs and brakes overlap."""
    kits = (
        KitEntry("turbo", (KitOperation("strip", D("0.5")), KitOperation("pipe", D("1.0"))), D("1.5")),
        KitEntry("brakes", (KitOperation("strip", D("0.4")), KitOperation("belt", D("2.0")))),
    )
    operations = (
        LabourOperation("pipe", "mechanical", exposed=True),
        LabourOperation("belt", "mechanical"),
        LabourOperation("strip", "mechanical", includes=("belt",)),
    )
    return replace(LabourInput(kits, operations, rates=RATES), **fields)


def test_every_line_says_who_asked_and_why_it_is_charged_so() -> None:
    pair = Overlap("pipe", "strip", D("0.3"))
    pipe, belt, strip = charge_labour(quote(condition_factor=D("1.2"), overlaps=(pair,))).lines
    assert [(entry.kit, entry.hours, entry.adjusted) for entry in pipe.kit_hours] == [("turbo", D("1.0"), D("1.50"))]
    assert pipe.reasons == (
        Reason.of("first_fit", kit="turbo", factor=D("1.5"), hours=D("1.5")),
        Reason.of("condition", factor=D("1.2"), hours=D("1.8")),
    )
    assert belt.reasons == (Reason.of("included_in", operation="strip", hours=D("2.0")),)
    assert strip.reasons == (
        Reason.of("once", kits=("brakes", "turbo"), count=2, longest=D("0.5")),
        Reason.of("raised_by", operation="belt", hours=D("2.0")),
        Reason.of("overlap", operation="pipe", hours=D("0.3")),
    )
    assert (pipe.hours, belt.hours, strip.hours) == (D("1.8"), D("0.0"), D("1.7"))


def test_overlaps_share_what_is_left_whatever_order_they_came_in() -> None:
    kits = (
        KitEntry("turbo", (KitOperation("belt", D("0.5")), KitOperation("pipe", D(2)), KitOperation("strip", D(3)))),
    )
    pairs = (Overlap("strip", "belt", D("0.4")), Overlap("pipe", "belt", D("0.2")), Overlap("belt", "pipe", D("0.1")))
    operations = tuple(LabourOperation(code, "mechanical") for code in ("belt", "pipe", "strip"))
    for order in (pairs, pairs[::-1]):
        belt, *_ = charge_labour(LabourInput(kits, operations, order, rates=RATES)).lines
        assert [(reason.named["operation"], reason.named["hours"]) for reason in belt.reasons] == [
            ("pipe", D("0.1")),
            ("pipe", D("0.2")),
            ("strip", D("0.2")),
        ]
        assert belt.hours == 0


def test_of_two_included_operations_the_longer_is_the_one_that_raised() -> None:
    operations = (LabourOperation("strip", "mechanical", includes=("belt", "pump")),)
    operations += (LabourOperation("belt", "mechanical"), LabourOperation("pump", "mechanical"))
    for belt, pump, raiser in (("3", "2", "belt"), ("2", "3", "pump"), ("2", "2", "belt")):
        needed = (KitOperation("belt", D(belt)), KitOperation("pump", D(pump)), KitOperation("strip", D(1)))
        strip, *_ = charge_labour(LabourInput((KitEntry("turbo", needed),), operations, rates=RATES)).lines
        longest = max(D(belt), D(pump))
        assert strip.reasons == (Reason.of("raised_by", operation=raiser, hours=longest),)


def test_what_is_charged_nothing_is_not_said_to_be_multiplied() -> None:
    exposed = tuple(replace(operation, exposed=True) for operation in quote().operations)
    _, belt, strip = charge_labour(quote(operations=exposed, condition_factor=D("1.2"))).lines
    assert [reason.code for reason in belt.reasons] == ["included_in"]
    assert strip.reasons[-1] == Reason.of("condition", factor=D("1.2"), hours=D("2.4"))


def test_lines_come_in_the_order_of_the_operations_not_of_the_kits() -> None:
    assert [line.code for line in charge_labour(quote()).lines] == ["pipe", "belt", "strip"]


def one_kit(code: str, hours: Any, first_fit: Any = D(1)) -> tuple[KitEntry, ...]:
    return (KitEntry("turbo", (KitOperation(code, hours),), first_fit),)


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"kits": one_kit("weld", D(1))}, "unknown_operation: weld (kit turbo)"),
        ({"overlaps": (Overlap("belt", "weld", D(1)),)}, "unknown_operation: weld (overlap)"),
        ({"operations": (LabourOperation("strip", "x", includes=("y",)),)}, "unknown_operation: y (included in strip)"),
        ({"rates": {"electrical": D(1)}}, "unknown_rate: mechanical (strip)"),
        ({"kits": one_kit("belt", D("-0.1"))}, "negative_hours: belt in kit turbo"),
        ({"overlaps": (Overlap("belt", "pipe", D(-1)),)}, "negative_hours: overlap of belt and pipe"),
        ({"kits": one_kit("belt", D(1), D("0.9"))}, "bad_factor: turbo 0.9"),
        ({"condition_factor": D("0.99")}, "bad_factor: condition_factor 0.99"),
        ({"kits": one_kit("belt", 0.1)}, "not_exact: belt in kit turbo 0.1"),
        ({"kits": one_kit("belt", D("NaN"))}, "not_exact: belt in kit turbo Decimal('NaN')"),
        ({"kits": one_kit("belt", D(1), 1.5)}, "not_exact: turbo 1.5"),
        ({"condition_factor": 1.2}, "not_exact: condition_factor 1.2"),
        ({"rates": {"mechanical": 99.5}}, "not_exact: mechanical 99.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        charge_labour(quote(**fields))
    assert str(refused.value) == refusal


def test_a_loop_is_named_also_on_oneself_and_a_diamond_is_none() -> None:
    ring = (LabourOperation("a", "m", includes=("b",)), LabourOperation("b", "m", includes=("c",)))
    with pytest.raises(CalculationError) as refused:
        charge_labour(LabourInput(operations=(*ring, LabourOperation("c", "m", includes=("a",)))))
    assert refused.value.code == "includes_loop"
    assert {"a", "b", "c"} == set(refused.value.culprit.split(" > "))
    with pytest.raises(CalculationError, match="includes_loop: a > a"):
        charge_labour(LabourInput(operations=(LabourOperation("a", "m", includes=("a",)),)))
    diamond = (LabourOperation("top", "m", includes=("left", "right")), LabourOperation("left", "m", includes=("end",)))
    diamond += (LabourOperation("right", "m", includes=("end",)), LabourOperation("end", "m"))
    assert charge_labour(LabourInput(operations=diamond)).hours == 0


def test_a_chain_of_a_thousand_inclusions_is_followed_to_its_end() -> None:
    chain = tuple(LabourOperation(f"o{at}", "mechanical", includes=(f"o{at + 1}",)) for at in range(1000))
    kits = (KitEntry("turbo", (KitOperation("o0", D(1)), KitOperation("o1000", D(3)))),)
    last = LabourOperation("o1000", "mechanical")
    assert charge_labour(LabourInput(kits, (*chain, last), rates=RATES)).hours == D("3.0")
