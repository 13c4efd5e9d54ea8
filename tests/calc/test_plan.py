"""The input of a quote's promise date: work, deliveries, and the acceptance on which parts are ordered."""

from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal as D
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from kitting.calc.needs import NeedRow
from quotes.calc.labour import KitOperation, LabourOperation
from quotes.calc.plan import PlannedPurchase, WorkPlan, WorkSequence, plan_from, plan_json, visit, work_plan
from quotes.calc.pricing import price_quote
from quotes.calc.quote_input import Buying, ChosenKit, Extra, FigureOverride, OfferedItem, PackOffer, QuoteInput
from shop.calc.days import here_from
from shop.calc.rules import Rules
from shop.calc.sheet import SheetStep as SheetStep
from shop.calc.worktime import WorkCalendar

ZONE = ZoneInfo("Europe/Vienna")
DAY = ((8 * 60, 16 * 60),)
HOURS = WorkCalendar(ZONE, (DAY, DAY, DAY, DAY, DAY, (), ()), frozenset({date(2026, 12, 8)}))
RULES = Rules.from_json(
    {
        "labour_rates": {"mechanical": "100"},
        "markup": {"mode": "floored", "bands": [{"x": "1"}]},
        "taxes": [],
        "efficiency": "1.25",
        "technicians": 2,
    }
)


def at(day: int, hour: int, minute: int = 0, month: int = 12) -> datetime:
    return datetime(2026, month, day, hour, minute, tzinfo=ZONE)


SELLER = "Quillfen Supply"


def kit_of(title: str, operation: str, lead_days: int | None) -> PlannedPurchase:
    return PlannedPurchase(title, operation, lead_days, whole=True, supplier=SELLER)


def bought(lead_days: int | None) -> Buying:
    return Buying("Quillfen Supply", "EUR", D(10), D(1), None, None, lead_days=lead_days)


def kit(letter: str, *work: tuple[str, str], lead: int | None = None, **more: Any) -> ChosenKit:
    operations = tuple(KitOperation(code, D(hours)) for code, hours in work)
    title = f"Kit {letter}"
    return ChosenKit(f"line-{letter}", letter, f"K-{letter}", title, operations, "part", bought(lead), **more)


def quote_of(*kits: ChosenKit, **more: Any) -> QuoteInput:
    codes = dict.fromkeys(work.code for kit in kits for work in kit.operations)
    operations = tuple(LabourOperation(code, "mechanical") for code in codes)
    titles = {code: f"Do {code}" for code in codes}
    return QuoteInput(RULES, 2, kits=kits, operations=operations, titles=titles, **more)


def planned(quote: QuoteInput, needed_at: dict[str, tuple[str, ...]] | None = None, **sheet: Any) -> WorkPlan:
    steps = sheet.get("steps", ())
    return work_plan(quote, price_quote(quote), WorkSequence(steps, sheet.get("waits", {}), needed_at or {}), None)


def test_the_steps_are_the_work_as_it_is_charged_in_the_order_of_the_sheet() -> None:
    quote = quote_of(
        kit("A", ("OFF", "1.5"), ("FIT", "3.0")), overrides={"labour:FIT": FigureOverride(D("2.5"), "known car")}
    )
    plan = planned(quote, steps=(SheetStep("OFF"), SheetStep("FIT", ("OFF", "GONE"))), waits={"OFF": 60})
    steps = [(s.code, s.title, s.position, s.hours, s.after, s.wait_after) for s in plan.steps]
    assert steps == [
        ("OFF", "Do OFF", 1, D("1.5"), (), 60),
        ("FIT", "Do FIT", 2, D("2.5"), ("OFF",), 0),
    ]
    assert (plan.team.technicians, plan.team.efficiency) == (2, D("1.25"))


def test_a_kit_is_awaited_where_something_out_of_its_box_is_first_needed() -> None:
    quote = quote_of(kit("A", ("OFF", "1"), ("FIT", "1"), lead=9), kit("B", ("OFF", "1"), ("WIRE", "1"), lead=4))
    plan = planned(quote, {"line-A": ("FIT",), "line-B": ("", "WIRE")})
    assert plan.purchases == (kit_of("Kit A", "FIT", 9), kit_of("Kit B", "OFF", 4), kit_of("Kit B", "WIRE", 4))


def test_a_kit_without_contents_or_with_an_operation_that_is_not_done_is_needed_first() -> None:
    quote = quote_of(kit("A", ("OFF", "1"), ("FIT", "1"), lead=2), kit("B", lead=3, own_hours=D(2)))
    plan = planned(quote, {"line-A": ("NOT DONE",)})
    assert plan.purchases == (kit_of("Kit A", "OFF", 2), kit_of("Kit B", "own:K-B", 3))


def with_need(charge: str, *leads: int | None, quantity: str = "6") -> QuoteInput:
    packs = tuple(PackOffer(f"p{n}", f"P{n}", "Oil", D(5 - 4 * n), bought(lead)) for n, lead in enumerate(leads))
    return quote_of(
        kit("A", ("OFF", "1"), ("FILL", "1"), lead=1),
        items={"oil": OfferedItem("oil", "Engine oil", "engine oil", "L", "part", packs)},
        needs=(NeedRow("A", "oil", "fixed", D(quantity), charge=charge, operation="FILL"),),
    )


@pytest.mark.parametrize(
    ("leads", "lead"),
    [((3, 8), 8), ((3, None), None), ((), None)],  # its slowest pack; one of them unknown; no pack at all
)
def test_a_need_comes_with_the_slowest_of_its_packs(leads: tuple[int | None, ...], lead: int | None) -> None:
    assert planned(with_need("pack", *leads)).purchases[1:] == (
        PlannedPurchase("Engine oil", "FILL", lead, supplier=SELLER if leads else ""),
    )


def test_what_the_shop_supplies_cover_and_what_is_not_needed_is_not_awaited() -> None:
    assert planned(with_need("supplies", 3, 8)).purchases == (kit_of("Kit A", "OFF", 1),)
    assert planned(with_need("pack", 3, 8, quantity="0")).purchases == (kit_of("Kit A", "OFF", 1),)


def test_a_loose_part_is_awaited_first_and_a_written_line_never() -> None:
    part = Extra("e1", "Hose", "part", D(1), D(5), bought(6), part="p")
    text = Extra("e2", "Alignment outside", "part", D(1), D(80))
    plan = planned(quote_of(kit("A", ("OFF", "1"), lead=1), extras=(part, text)))
    assert plan.purchases == (kit_of("Kit A", "OFF", 1), PlannedPurchase("Hose", "", 6, supplier=SELLER))


def test_lead_days_of_more_than_ten_years_are_as_good_as_none() -> None:
    assert planned(quote_of(kit("A", ("OFF", "1"), lead=10**9))).purchases == (kit_of("Kit A", "OFF", None),)


PLAN = planned(quote_of(kit("A", ("OFF", "5"), ("FIT", "10"), lead=4)), {"line-A": ("FIT",)})


def test_what_is_bought_is_on_the_shelf_its_lead_days_after_the_yes_and_unknown_ones_are_named() -> None:
    result = visit(PLAN, HOURS, at(2, 9))  # four days from Wednesday is Sunday: on the shelf as Monday ends
    assert result.ready.at == at(10, 8)  # the 8th is closed, and eight hours of the clock fill the 9th
    assert [(delivery.title, delivery.at) for delivery in result.coming] == [("Kit A", at(7, 16))]
    unknown = visit(replace(PLAN, purchases=(PlannedPurchase("Kit A", "FIT", None),)), HOURS, at(2, 9))
    assert ([delivery.title for delivery in unknown.unknown], unknown.ready.at) == (["Kit A"], at(3, 9))
    assert unknown.dateless == ()
    kit_unknown = visit(replace(PLAN, purchases=(kit_of("Kit A", "FIT", None),)), HOURS, at(2, 9))
    assert [(delivery.title, delivery.ask) for delivery in kit_unknown.dateless] == [("Kit A", SELLER)]


def test_the_vehicle_comes_on_the_latest_day_that_delays_nothing() -> None:
    result = visit(PLAN, HOURS, at(2, 9))
    assert [(leg.kind, leg.steps) for leg in result.legs] == [("arrival", ()), ("drop_off", ()), ("work", ("FIT",))]
    assert (result.bring, result.legs[2].since) == (at(9, 8), at(9, 8))  # both steps side by side
    quote = quote_of(kit("A", ("OFF", "20"), ("FIT", "10"), lead=4))
    long = planned(quote, {"line-A": ("FIT",)}, steps=(SheetStep("OFF"), SheetStep("FIT", ("OFF",))))
    assert visit(long, HOURS, at(2, 9)).bring == at(4, 8)  # two days of work come first


def test_the_day_of_the_yes_is_the_shops_own() -> None:
    thursday, friday = (
        visit(PLAN, HOURS, datetime(2026, 12, 3, hour, 30, tzinfo=ZoneInfo("UTC"))) for hour in (22, 23)
    )
    assert (thursday.coming[0].at, friday.coming[0].at) == (at(7, 16), at(9, 16))


@pytest.mark.parametrize(
    ("day", "since"),
    [
        (None, at(2, 9, 30)),
        (date(2026, 12, 2), at(2, 9, 30)),  # today: it cannot have begun at eight
        (date(2026, 12, 1), at(2, 9, 30)),
        (date(2026, 12, 5), at(7, 8)),  # a Saturday
    ],
)
def test_the_vehicle_is_here_as_the_shop_opens_on_its_day_and_never_before_now(
    day: date | None, since: datetime
) -> None:
    assert here_from(day, HOURS, at(2, 9, 30)) == since
    late = visit(replace(PLAN, purchases=(), here_from=day), HOURS, at(2, 9, 30))
    assert day is None or (late.promise.schedule[0].start, late.bring) == (since, since)


def test_a_frozen_plan_is_read_back_as_it_was() -> None:
    plan = replace(PLAN, here_from=date(2026, 12, 5))
    assert plan_from(plan_json(plan), ()) == plan
    assert plan_from(plan_json(PLAN), ()) == PLAN
    here = replace(PLAN, here=True)
    assert plan_from(plan_json(here), ()) == here


def test_a_plan_frozen_before_kits_were_marked_knows_them_by_their_titles() -> None:
    content = plan_json(PLAN)
    del content["here"], content["coming"][0]["whole"], content["coming"][0]["supplier"]
    read = plan_from(content, {"Kit A"})
    assert (read.here, read.purchases) == (False, (PlannedPurchase("Kit A", "FIT", 4, whole=True),))
    assert not plan_from(content, {"Kit B"}).purchases[0].whole
