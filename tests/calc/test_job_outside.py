"""A job's progress while another firm works for it: which step waits, from which day, and until when."""

from dataclasses import replace
from datetime import date, datetime

import pytest

from kitting.calc.job_readiness import JobForecast, JobWork
from kitting.calc.outside_log import OutsideProgress
from shop.calc.outside import PlannedOutsideWork
from tests.calc.test_job_readiness import CLOSE, DUCT, FIT, SETUP, TRIM, at, judged, step, work

# Work begins on Tuesday the 1st at 8: FIT would start on Wednesday at 8, TRIM on Thursday at 10.
FILE = PlannedOutsideWork("outside:1", "Calibration", "Lathe & Lambda", 1, "", "TRIM")


def with_work(*works: PlannedOutsideWork, **more: object) -> JobWork:
    return work(outside=works, **more)


def state(code: str, *works: PlannedOutsideWork, **more: object) -> str:
    return judged(with_work(*works, **more)).states[code]


def started(forecast: JobForecast) -> dict[str, datetime]:
    assert forecast.ahead is not None
    return {booking.code: booking.start for booking in forecast.ahead.promise.schedule}


@pytest.mark.parametrize(("days", "expected"), [(1, "comes"), (2, "waits")])
def test_a_step_waits_for_what_comes_back_after_it_would_begin(days: int, expected: str) -> None:
    """The work comes back at closing time: on Wednesday, before Thursday's step, or on Thursday, after it."""
    assert state("TRIM", replace(FILE, days=days)) == expected
    assert state("FIT", replace(FILE, days=days)) == "clear"


def test_the_vehicle_is_not_taken_apart_for_a_step_that_waits() -> None:
    readiness = judged(with_work(replace(FILE, days=3, needed_by="FIT"))).readiness
    assert (readiness.verdict, readiness.hold_before) == ("start_to_hold", "STRIP")


def test_until_it_is_sent_its_days_count_from_today() -> None:
    """Accepted on Monday and not sent by Tuesday: two days end on Thursday, after the step would begin."""
    assert state("TRIM", replace(FILE, days=2), opened_on=date(2026, 11, 30)) == "waits"
    assert state("TRIM", replace(FILE, days=2), opened_on=date(2026, 12, 2)) == "waits"  # not ordered before Wednesday
    assert with_work(FILE, opened_on=date(2026, 12, 2)).away[0].at == at(3, 17)


def test_once_sent_its_days_count_from_that_day() -> None:
    sent = {FILE.code: OutsideProgress("sent", 1, date(2026, 11, 30))}
    assert state("TRIM", replace(FILE, days=2), progress=sent) == "comes"  # Wednesday, not Thursday
    named = {FILE.code: OutsideProgress("sent", 1, date(2026, 11, 30), expected_on=date(2026, 12, 3))}
    assert state("TRIM", replace(FILE, days=2), progress=named) == "waits"


def test_late_work_has_no_day_until_the_firm_names_one() -> None:
    sent = {FILE.code: OutsideProgress("sent", 1, date(2026, 11, 30))}
    forecast = judged(with_work(FILE, progress=sent, now=at(1, 17)))
    assert forecast.states["TRIM"] == "waits" and forecast.ahead is not None
    (late,) = forecast.ahead.dateless
    assert (late.at, late.was_due, late.ask) == (None, at(1, 17), "Lathe & Lambda")
    assert judged(with_work(FILE, progress=sent, now=at(1, 16, 45))).ahead.dateless == ()  # type: ignore[union-attr]


def test_what_came_back_is_waited_for_no_more() -> None:
    back = {FILE.code: OutsideProgress("back", 1, date(2026, 11, 30), back_on=date(2026, 12, 1))}
    assert state("TRIM", replace(FILE, days=9), progress=back) == "clear"
    after = replace(FILE, days=2, starts_after="SETUP", needed_by="FIT")
    assert started(judged(with_work(after, progress=back)))["FIT"] == at(2, 8)
    assert with_work(after, progress=back).planned == with_work().planned


def test_work_after_a_step_is_awaited_from_the_day_it_was_sent() -> None:
    after = replace(FILE, days=2, starts_after="SETUP", needed_by="FIT")
    sent = {FILE.code: OutsideProgress("sent", 1, date(2026, 12, 1))}
    job = with_work(after, progress=sent)
    assert [(back.operation, back.at) for back in job.away] == [
        ("FIT", at(3, 17))
    ] and job.planned == with_work().planned


def test_work_without_a_turnaround_is_waited_for_and_has_no_day() -> None:
    forecast = judged(with_work(replace(FILE, days=None)))
    assert forecast.states["TRIM"] == "waits"
    assert forecast.ahead is not None and [delivery.title for delivery in forecast.ahead.dateless] == ["Calibration"]


@pytest.mark.parametrize("needed_by", ["", "GONE"])
def test_work_that_names_no_step_of_the_job_is_needed_first(needed_by: str) -> None:
    assert state("SETUP", replace(FILE, needed_by=needed_by)) == "waits"


def test_two_of_one_title_both_have_to_be_back() -> None:
    other = replace(FILE, code="outside:2")
    assert state("TRIM", FILE, other) == "comes"
    assert state("TRIM", FILE, replace(other, days=2)) == "waits"


def test_work_after_a_step_holds_up_the_date_and_no_step_that_could_begin() -> None:
    forecast = judged(with_work(replace(FILE, days=2, starts_after="SETUP", needed_by="FIT")))
    assert set(forecast.states.values()) == {"clear"}
    assert started(forecast)["FIT"] == at(4, 8)  # ready to leave on Tuesday, back as Thursday ends


def test_a_part_may_come_while_the_other_firm_works() -> None:
    """The step begins only once the work is back, so a part that arrives earlier is in time."""
    duct = replace(DUCT, said_at=at(3, 12))
    strip = step("STRIP", 2, "6", "SETUP")
    steps = (SETUP, strip, FIT, CLOSE, TRIM)
    after = replace(FILE, days=2, starts_after="SETUP", needed_by="FIT")
    assert judged(work(duct, steps=steps)).states["FIT"] == "waits"
    assert judged(work(duct, steps=steps, outside=(after,))).states["FIT"] == "comes"


def test_without_opening_hours_nobody_is_said_to_wait_for_it() -> None:
    assert with_work(FILE, calendar=None).away == ()


def test_what_a_change_added_begins_after_its_withdrawal_period() -> None:
    waiting = work(not_before={"FIT": date(2026, 12, 4)})
    forecast = judged(waiting)
    assert (forecast.readiness.verdict, forecast.readiness.hold_before) == ("start_to_hold", "STRIP")
    assert forecast.states["FIT"] == "waits" and started(forecast)["FIT"] == at(4, 8)
    assert forecast.ahead is not None and "withdrawal" in [leg.kind for leg in forecast.ahead.legs]
    assert judged(replace(waiting, not_before={"TRIM": date(2026, 12, 3)})).states["TRIM"] == "comes"
    assert judged(replace(waiting, calendar=None)).states["FIT"] == "clear"  # nobody knows when a day begins


def test_outside_work_of_a_change_is_ordered_after_its_withdrawal_period() -> None:
    later = with_work(FILE, not_before={FILE.code: date(2026, 12, 4)})
    assert [back.at for back in later.away] == [at(7, 17)]  # the next open day
