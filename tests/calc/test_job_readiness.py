"""A job's progress with its pull list, rule by rule."""

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal as D
from zoneinfo import ZoneInfo

import pytest

from kitting.calc.counting import Tally
from kitting.calc.job_readiness import JobForecast, JobWork, find_shortages, judge_job, waited_for
from kitting.calc.line_state import Flags
from kitting.calc.missing import NeededItem, on_hand
from kitting.calc.still_to_order import PullLineStock, single_lines, whole_kits
from shop.calc.errors import CalculationError
from shop.calc.visit import Step
from shop.calc.worktime import WorkCalendar

ZONE = ZoneInfo("Europe/Vienna")
DAY = ((8 * 60, 12 * 60), (13 * 60, 17 * 60))
HOURS = WorkCalendar(ZONE, (DAY, DAY, DAY, DAY, DAY, (), ()))


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


def step(code: str, position: int, hours: str, *after: str, **more: bool) -> Step:
    return Step(code, f"Step {code}", position, D(hours), after, **more)


SETUP = step("SETUP", 1, "2")
STRIP = step("STRIP", 2, "6", "SETUP", no_return=True)
FIT = step("FIT", 3, "8", "STRIP")
CLOSE = step("CLOSE", 4, "2", "FIT", mobile_again=True)
TRIM = step("TRIM", 5, "1", "CLOSE")
RING = NeededItem("ring", "O-ring", "FIT", need=4, have=2, counted=True, kit="TURBO")
DUCT = NeededItem("duct", "Duct", "FIT", need=1, have=0, kit="TURBO", carton="2", lead_days=7)
CLIP = NeededItem("clip", "Clip", "TRIM", need=6, have=6, counted=True, kit="TURBO")


def work(*items: NeededItem, steps: tuple[Step, ...] = (SETUP, STRIP, FIT, CLOSE, TRIM), **more: object) -> JobWork:
    values = {"now": at(1, 8), "opened_on": date(2026, 12, 1), "calendar": HOURS}
    return JobWork(steps, items, **(values | more))  # type: ignore[arg-type]


def judged(job: JobWork) -> JobForecast:
    shortages = find_shortages(job)
    return judge_job(job, shortages, {group.key: group.first.item.title for group in shortages.groups})


def verdict(*items: NeededItem, **more: object) -> str:
    return judged(work(*items, **more)).readiness.verdict  # type: ignore[arg-type]


def test_all_is_here_when_every_piece_is() -> None:
    assert verdict(replace(RING, have=4), CLIP) == "complete"


def test_a_part_short_behind_the_point_of_no_return_stops_the_work_before_it() -> None:
    job = work(RING, CLIP)
    forecast = judged(job)
    assert (forecast.readiness.verdict, forecast.readiness.hold_before) == ("start_to_hold", "STRIP")
    assert forecast.states == {"SETUP": "clear", "STRIP": "clear", "FIT": "waits", "CLOSE": "after", "TRIM": "after"}
    assert len(waited_for(forecast.readiness, job, find_shortages(job))) == 1


def test_a_part_that_comes_before_its_step_would_begin_lets_the_work_start() -> None:
    in_time = replace(RING, said_at=at(2, 8))  # two and six hours come before the fitting: Wed 8:00
    forecast = judged(work(in_time))
    assert forecast.readiness.verdict == "start_on_arrivals"
    assert forecast.states["FIT"] == "comes"
    assert [(arrival.code, arrival.slack_minutes) for arrival in forecast.readiness.arrivals] == [("FIT", 0)]
    assert verdict(replace(RING, said_at=at(2, 8, 1))) == "start_to_hold"


def test_a_part_short_where_the_vehicle_can_move_stops_nothing_else() -> None:
    assert verdict(replace(CLIP, have=5)) == "start"


def test_a_part_short_at_the_first_step_stops_all() -> None:
    assert verdict(replace(RING, operation="SETUP")) == "hold"


@pytest.mark.parametrize("operation", ["", "ELSEWHERE"])
def test_what_no_step_of_the_job_names_is_needed_first(operation: str) -> None:
    assert verdict(replace(RING, operation=operation)) == "hold"


def test_a_predecessor_that_the_job_does_not_have_is_passed_over() -> None:
    assert verdict(CLIP, steps=(step("TRIM", 1, "1", "GONE"),)) == "complete"


def test_a_loop_is_refused_by_name() -> None:
    with pytest.raises(CalculationError, match="loop: A > B > A"):
        judged(work(steps=(step("A", 1, "1", "B"), step("B", 2, "1", "A"))))


def test_spares_and_papers_stop_nothing() -> None:
    spare = replace(RING, minor=True)
    forecast = judged(work(spare))
    assert forecast.readiness.verdict == "complete"
    assert (forecast.readiness.short, find_shortages(work(spare)).missing[0].step) == ({}, "")


def test_without_steps_everything_is_needed_at_once() -> None:
    assert verdict(RING, steps=()) == "hold"
    assert verdict(CLIP, steps=()) == "complete"


def test_what_nobody_touched_comes_after_the_lead_days_as_the_shop_closes() -> None:
    (missing,) = find_shortages(work(DUCT)).missing
    assert (missing.due, missing.overdue) == (at(8, 17), False)


def test_what_is_short_in_a_kit_that_was_opened_does_not_come_with_it() -> None:
    assert find_shortages(work(replace(DUCT, counted=True))).missing[0].due is None
    from_the_shelf = replace(DUCT, counted=True, kit="")
    assert find_shortages(work(from_the_shelf)).missing[0].due == at(8, 17)


def test_what_a_person_said_stands_before_the_lead_days() -> None:
    assert find_shortages(work(replace(DUCT, said_at=at(4, 10)))).missing[0].due == at(4, 10)


def test_a_day_that_is_over_covers_nothing() -> None:
    late = work(replace(RING, said_at=at(1, 7, 59)))
    assert find_shortages(late).missing[0].overdue and judged(late).readiness.verdict == "start_to_hold"
    ahead = judged(late).ahead
    assert ahead is not None and ahead.unknown == ()
    assert [(delivery.title, delivery.was_due) for delivery in ahead.overdue] == [("O-ring", at(1, 7, 59))]


def test_work_begins_as_the_shop_opens_on_the_day_the_vehicle_comes() -> None:
    forecast = judged(work(here_from=date(2026, 12, 7)))
    assert forecast.ahead is not None and forecast.ahead.promise.schedule[0].start == at(7, 8)
    # on Tue 8 at 8:00 the duct is not here yet
    assert verdict(DUCT, here_from=date(2026, 12, 7)) == "start_to_hold"
    assert verdict(DUCT, here_from=date(2026, 12, 8)) == "start_on_arrivals"


def test_the_date_waits_for_what_comes_and_names_what_nobody_knows() -> None:
    ahead = judged(work(DUCT, RING)).ahead
    assert ahead is not None
    assert [(delivery.title, delivery.operation, delivery.at) for delivery in ahead.coming] == [
        ("Duct", "FIT", at(8, 17)),
        ("O-ring", "FIT", None),
    ]
    assert ([delivery.title for delivery in ahead.unknown], ahead.ready.at) == (["O-ring"], at(10, 11))
    assert ahead.dateless == ()  # a part is missing, not its kit


def test_a_later_start_may_be_ready_sooner() -> None:
    """If work begins on the 8th, fitting starts on the 9th, when the duct is here, so nothing is held up."""
    ahead = judged(work(DUCT)).ahead
    assert ahead is not None
    assert (ahead.since, ahead.bring, ahead.ready.at) == (at(8, 8), at(8, 8), at(10, 11))
    assert [leg.kind for leg in ahead.legs] == ["drop_off", "work"]
    here = judged(work(DUCT, here_from=date(2026, 12, 1))).ahead
    assert here is not None and (here.bring, here.since, here.here) == (at(1, 8), at(8, 8), True)


def dateless(*items: NeededItem) -> list[str]:
    ahead = judged(work(*items)).ahead
    assert ahead is not None
    return [delivery.title for delivery in ahead.dateless]


def test_without_the_day_of_a_whole_kit_or_its_only_carton_there_is_no_date() -> None:
    kit = [replace(DUCT, line=f"{n}", lead_days=None, carton="1" if n else "") for n in range(4)]
    assert dateless(*kit) == ["Duct"]
    assert dateless(replace(kit[0], counted=True, have=1), *kit[1:]) == ["Duct"]  # its only carton
    two = replace(kit[3], carton="2")
    assert dateless(replace(kit[0], counted=True, have=1), *kit[1:3], two) == []  # one of two cartons, and another
    assert dateless(*kit[:3], replace(two, said_at=at(3, 9))) == []  # a part of the kit has a day
    assert dateless(replace(RING, lead_days=None), CLIP) == []
    late = replace(DUCT, said_at=at(1, 7))
    assert dateless(late) == ["Duct"]


def test_without_opening_hours_there_is_no_date_and_nothing_comes_in_time() -> None:
    forecast = judged(work(replace(RING, said_at=at(2, 8)), calendar=None))
    assert (forecast.ahead, forecast.readiness.verdict) == (None, "start_to_hold")
    assert find_shortages(work(DUCT, calendar=None)).missing[0].due is None


def test_an_untouched_kit_is_said_once_then_carton_by_carton() -> None:
    box = [replace(DUCT, line=f"{n}", carton="1" if n < 3 else "2") for n in range(6)]
    (group,) = find_shortages(work(*box)).groups
    assert (group.kind, len(group.lines)) == ("kit", 6)
    begun = [replace(box[0], counted=True, have=1), *box[1:]]
    assert [(group.kind, len(group.lines)) for group in find_shortages(work(*begun)).groups] == [
        ("bag", 2),
        ("carton", 3),
    ]
    dated = [replace(line, said_at=at(4, 10)) if line.line in "34" else line for line in begun]
    assert [len(group.lines) for group in find_shortages(work(*dated)).groups] == [2, 2, 1]


def test_a_carton_has_come_once_one_of_its_lines_is_counted() -> None:
    """Its other lines have to be counted: they have no date, even if a person gave the carton one."""
    begun = replace(DUCT, line="begun", counted=True, have=1)
    for said_at in (None, at(4, 10)):
        rest = replace(DUCT, said_at=said_at)
        (missing,) = find_shortages(work(begun, rest)).missing
        assert (missing.uncounted, missing.due, missing.overdue) == (True, None, False)
    (missing,) = find_shortages(work(replace(begun, carton="1"), DUCT)).missing
    assert (missing.uncounted, missing.due) == (False, at(8, 17))  # another carton
    (missing,) = find_shortages(work(replace(begun, copy=2), DUCT)).missing
    assert (missing.uncounted, missing.due) == (False, at(8, 17))  # another copy of the kit
    assert find_shortages(work(DUCT, opened=frozenset({("TURBO", 1, "2")}))).missing[0].uncounted


def test_a_kit_without_cartons_has_come_once_one_of_its_lines_is_counted() -> None:
    bags = [replace(DUCT, line=bag, carton="", bag=bag) for bag in "ABBC"]
    assert not any(entry.uncounted for entry in find_shortages(work(*bags)).missing)
    begun = [replace(bags[0], counted=True, have=1), *bags[1:]]
    assert [(entry.kind, len(entry.lines)) for entry in find_shortages(work(*begun)).groups] == [
        ("bag", 2),
        ("line", 1),
    ]


def test_a_shelf_line_that_nobody_has_counted_has_no_day() -> None:
    shelf = replace(DUCT, kit="", carton="")
    (missing,) = find_shortages(work(shelf)).missing
    assert (missing.uncounted, missing.due) == (True, None)
    (missing,) = find_shortages(work(replace(shelf, said_at=at(4, 10)))).missing
    assert (missing.uncounted, missing.due) == (False, at(4, 10))  # a person ordered it


def test_what_only_has_to_be_counted_stands_first_and_is_on_its_way_to_nobody() -> None:
    begun = replace(DUCT, line="begun", counted=True, have=1)
    shelf = replace(DUCT, line="oil", operation="SETUP", kit="", carton="")
    job = work(replace(RING, operation="SETUP"), shelf, begun, DUCT)
    assert [entry.first.item.line for entry in find_shortages(job).groups] == ["duct", "oil", "ring"]
    ahead = judged(job).ahead
    assert ahead is not None and [entry.title for entry in ahead.coming] == ["O-ring"]
    assert judged(work(begun, DUCT)).readiness.verdict == "start_to_hold"


def test_what_stops_the_earliest_step_is_said_first() -> None:
    groups = find_shortages(work(replace(CLIP, have=0), RING, replace(RING, line="manual", minor=True))).groups
    assert [group.first.item.line for group in groups] == ["ring", "clip", "manual"]


@pytest.mark.parametrize(
    ("tally", "flags", "wrong", "have"),
    [
        (None, Flags(), 0, 0),
        (None, Flags(sealed=True), 0, 4),
        (Tally(4, 1, 4, False), Flags(), 0, 3),
        (Tally(4, 0, 3, True), Flags(), 0, 3),  # two counts differ: the lower one
        (Tally(4, 0, 4, False), Flags(wrong_part=1), 1, 3),
        (Tally(3, 0, 3, False), Flags(wrong_part=1), 0, 3),  # counted again since
        (Tally(0, 0, -1, True), Flags(), 0, 0),
    ],
)
def test_only_good_pieces_that_were_counted_are_here(tally: Tally | None, flags: Flags, wrong: int, have: int) -> None:
    assert on_hand(4, tally, flags, wrong) == have


NOW = datetime(2026, 12, 1, 8, tzinfo=UTC)
BOLT = PullLineStock("bolt", D(4), "pc", have=3, settled=True, kit="TURBO")
HOSE = PullLineStock("hose", D("2.5"), "m", have=0, settled=False, kit="TURBO")
OIL = PullLineStock("oil", D(2), "pc", have=1, settled=True)


def test_a_kit_that_nobody_opened_is_ordered_whole_and_an_opened_one_by_what_is_short() -> None:
    untouched = replace(BOLT, have=0, settled=False)
    assert whole_kits([untouched, replace(HOSE, copy=2), OIL], NOW) == {"TURBO": 2}
    assert list(single_lines([untouched, OIL], NOW)) == [("oil", D(1))]
    assert whole_kits([BOLT, HOSE], NOW) == {}
    assert list(single_lines([BOLT, HOSE], NOW)) == [("bolt", D(1))]  # the hose may lie in the next carton
    assert list(single_lines([replace(OIL, settled=False)], NOW)) == []  # the shelf has not been counted
    no_hose = replace(HOSE, settled=True)
    assert list(single_lines([BOLT, no_hose], NOW)) == [("bolt", D(1)), ("hose", D("2.5"))]


def test_what_has_a_day_is_not_ordered_again_until_the_day_is_over() -> None:
    later = datetime(2026, 12, 4, 8, tzinfo=UTC)
    assert list(single_lines([replace(BOLT, said_at=later)], NOW)) == []
    assert list(single_lines([replace(BOLT, said_at=NOW)], later)) == [("bolt", D(1))]
    assert whole_kits([replace(HOSE, said_at=later)], NOW) == {}
    assert whole_kits([replace(HOSE, said_at=later), replace(HOSE, line="x")], NOW) == {"TURBO": 1}


def test_of_what_has_a_day_the_pieces_that_came_and_cannot_be_used_are_ordered_at_once() -> None:
    later = datetime(2026, 12, 4, 8, tzinfo=UTC)
    awaited = replace(BOLT, have=1, said_at=later)
    assert list(single_lines([replace(awaited, spoiled=2)], NOW)) == [("bolt", D(2))]  # the third still comes
    assert list(single_lines([replace(awaited, spoiled=9)], NOW)) == [("bolt", D(3))]
    assert list(single_lines([replace(awaited, spoiled=2)], later.replace(hour=9))) == [("bolt", D(3))]
    cut = replace(HOSE, settled=True, said_at=later, spoiled=1)
    assert list(single_lines([cut], NOW)) == [("hose", D("2.5"))]


def test_what_lies_beside_is_not_bought_but_tells_that_the_kit_is_here() -> None:
    beside = replace(BOLT, taken=False, have=0, settled=False)
    assert whole_kits([beside], NOW) == {"TURBO": 1}
    assert whole_kits([replace(beside, settled=True), HOSE], NOW) == {}
    assert list(single_lines([beside, BOLT], NOW)) == [("bolt", D(1))]


def test_nothing_of_a_kit_that_the_customer_brings_is_bought() -> None:
    brought = replace(BOLT, line="theirs", part="M8", supplied=True)
    assert whole_kits([replace(brought, have=0, settled=False), replace(HOSE, copy=2)], NOW) == {"TURBO": 1}
    assert list(single_lines([brought, OIL], NOW)) == [("oil", D(1))]
    second = replace(BOLT, copy=2, part="M8")
    assert list(single_lines([replace(brought, have=9), second], NOW)) == [("bolt", D(1))]  # theirs is no spare
