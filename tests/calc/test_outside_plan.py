"""Work of another firm in a plan: turnarounds in open days from acceptance or a step, and the steps that wait."""

from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal as D
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shop.calc.outside import PlannedOutsideWork, coming_back, given_back, needs_itself, with_outside
from shop.calc.visit import Step, Team, Visit, look_ahead
from shop.calc.worktime import WorkCalendar

ZONE = ZoneInfo("Europe/Vienna")
DAY = ((8 * 60, 12 * 60), (13 * 60, 17 * 60))
OPEN = WorkCalendar(ZONE, (DAY, DAY, DAY, DAY, DAY, (), ()))
HOLIDAY = replace(OPEN, closed=frozenset({date(2026, 12, 8)}))  # a Tuesday


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


READ = Step("READ", "Calibration read", 1, D(1))
TRIM = Step("TRIM", "Trim on", 2, D(2), ("READ",))
WRITE = Step("WRITE", "Calibration written", 3, D(1), ("READ",))
TEST = Step("TEST", "Road test", 4, D(1), ("WRITE", "TRIM"))
SHEET = (READ, TRIM, WRITE, TEST)
FILE = PlannedOutsideWork("outside:1", "Calibration by Lathe & Lambda", "Lathe & Lambda", 3, "READ", "WRITE")
ORDERED = replace(FILE, starts_after="")


def ahead(*works: PlannedOutsideWork, calendar: WorkCalendar = OPEN, steps: tuple[Step, ...] = SHEET) -> Visit:
    """The visit of a vehicle that is here from the first minute, on a Thursday."""
    since = at(3, 8)
    planned = with_outside(steps, works)
    coming = tuple(coming_back(works, steps, since, calendar))
    return look_ahead(planned, coming, calendar, since, Team(), since.date())


def started(visit: Visit) -> dict[str, datetime]:
    return {booking.code: booking.start for booking in visit.promise.schedule}


@pytest.mark.parametrize(
    ("calendar", "written"),
    [(OPEN, at(9, 8)), (HOLIDAY, at(10, 8))],  # Fri, Mon, Tue: back as Tuesday ends; with the holiday Wednesday
)
def test_three_working_days_over_a_weekend_and_a_holiday(calendar: WorkCalendar, written: datetime) -> None:
    visit = ahead(FILE, calendar=calendar)
    assert started(visit)["WRITE"] == written
    assert started(ahead(ORDERED, calendar=calendar))["WRITE"] == written


def test_only_the_step_that_needs_the_result_waits() -> None:
    assert (started(ahead(FILE))["TRIM"], started(ahead())["WRITE"]) == (at(3, 9), at(3, 11))
    assert (started(ahead(ORDERED))["READ"], started(ahead(ORDERED))["TRIM"]) == (at(3, 8), at(3, 9))


def test_the_way_names_the_firm_and_its_days_between_the_work() -> None:
    assert [(leg.kind, leg.steps, leg.title, leg.days) for leg in ahead(FILE).legs] == [
        ("drop_off", (), "", 0),
        ("work", ("READ",), "", 0),
        ("outside", (), "Calibration by Lathe & Lambda", 3),
        ("work", ("WRITE", "TEST"), "", 0),
    ]


def test_turnaround_begins_once_a_cure_before_it_is_over() -> None:
    cured = replace(READ, wait_after=180)
    visit = ahead(FILE, steps=(cured, WRITE))
    assert [leg.kind for leg in visit.legs] == ["drop_off", "work", "wait", "outside", "work"]


def test_what_leaves_with_the_last_step_keeps_the_vehicle_until_it_is_back() -> None:
    visit = ahead(replace(FILE, starts_after="TEST", needed_by=""))
    assert (visit.promise.finish, visit.legs[-1].kind, visit.legs[-1].until) == (at(8, 17), "outside", at(8, 17))
    assert (visit.ready.day, visit.ready.half) == (date(2026, 12, 9), "morning")


def test_from_acceptance_it_is_awaited_like_a_delivery() -> None:
    visit = ahead(ORDERED)
    assert [(delivery.title, delivery.operation, delivery.at) for delivery in visit.coming] == [
        (FILE.title, "WRITE", at(8, 17))
    ]
    assert given_back(at(5, 10), 1, HOLIDAY) == at(7, 17)  # accepted on a Saturday


@pytest.mark.parametrize("work", [replace(FILE, days=None), replace(FILE, starts_after="GONE")])
def test_without_a_turnaround_or_the_step_it_starts_after_there_is_no_date(work: PlannedOutsideWork) -> None:
    visit = ahead(work)
    assert [(delivery.title, delivery.ask, delivery.outside) for delivery in visit.dateless] == [
        (FILE.title, FILE.firm, True)
    ]
    assert len(visit.promise.schedule) == len(SHEET)


@pytest.mark.parametrize("needed_by", ["READ", "WRITE"])
def test_a_step_before_it_cannot_wait_for_its_result(needed_by: str) -> None:
    work = replace(FILE, starts_after="WRITE", needed_by=needed_by)
    assert needs_itself(work, SHEET) and not needs_itself(FILE, SHEET) and not needs_itself(ORDERED, SHEET)
    assert ahead(work).promise.finish == at(8, 17)  # read at 9, trimmed by 11, written by 12: the same Thursday


def test_a_vehicle_is_taken_apart_for_a_file_ordered_from_it_but_not_to_stand_for_one_ordered_before() -> None:
    front = Step("FRONT", "Front off", 1, D(2), no_return=True)
    read, write = replace(READ, after=("FRONT",)), replace(WRITE, after=("READ",), mobile_again=True)
    steps = (front, read, write)
    assert started(ahead(FILE, steps=steps))["FRONT"] == at(3, 8)
    assert started(ahead(ORDERED, steps=steps))["FRONT"] == at(9, 8)
    shut = replace(front, after=("WRITE",))  # taken apart only after the file was written
    assert started(ahead(FILE, steps=(READ, WRITE, shut)))["FRONT"] == at(9, 9)


@given(
    days=st.integers(1, 4),
    hours=st.lists(st.integers(0, 12), min_size=3, max_size=6),
    places=st.tuples(st.integers(0, 5), st.integers(0, 5)),
    people=st.integers(1, 2),
)
def test_the_step_that_needs_it_never_begins_before_it_is_back(
    days: int, hours: list[int], places: tuple[int, int], people: int
) -> None:
    steps = tuple(
        Step(f"S{n}", f"Step {n}", n, D(step_hours), (f"S{n - 2}",) if n > 1 else ())
        for n, step_hours in enumerate(hours)
    )
    first, needs = (f"S{place}" for place in places)
    work = PlannedOutsideWork("outside:1", "Machining", "Firm", days, first, needs)
    visit = look_ahead(with_outside(steps, [work]), (), HOLIDAY, at(3, 8), Team(people))
    booked = {booking.code: booking for booking in visit.promise.schedule}
    assert len(booked) == len(steps) + (first in booked)
    if "outside:1" in booked:
        assert booked["outside:1"].start >= booked[first].end
        back = given_back(booked["outside:1"].end, days, HOLIDAY)
        assert visit.promise.finish >= back
        if needs in booked and not needs_itself(work, steps):
            assert booked[needs].start >= back
