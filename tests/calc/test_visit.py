"""The stretches of a visit up to its promise date, and days as a workshop speaks of them."""

from datetime import UTC, date, datetime
from decimal import Decimal as D
from zoneinfo import ZoneInfo

import pytest

from shop.calc.days import half_day, on_the_shelf, opening
from shop.calc.visit import ExpectedDelivery, Step, Team, Visit, look_ahead, starts_at_once
from shop.calc.worktime import WorkCalendar

ZONE = ZoneInfo("Europe/Vienna")
DAY = ((8 * 60, 12 * 60), (13 * 60, 17 * 60))
HOURS = WorkCalendar(ZONE, (DAY, DAY, DAY, DAY, DAY, (), ()), frozenset({date(2026, 12, 8)}))


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


def ahead(
    *steps: Step, coming: tuple[ExpectedDelivery, ...] = (), since: datetime | None = None, team: Team | None = None
) -> Visit:
    """The visit of a vehicle that is here."""
    since = since or at(1, 8)
    return look_ahead(steps, coming, HOURS, since, team or Team(), since.date())


STRIP = Step("STRIP", "Front off", 1, D(2))
SEAL = Step("SEAL", "Sump sealed", 2, D(1), ("STRIP",), wait_after=180)
FILL = Step("FILL", "Oil filled", 3, D(1), ("SEAL",))


@pytest.mark.parametrize(
    ("day", "shelf"),
    [(1, at(1, 17)), (5, at(7, 17)), (8, at(9, 17))],  # an open day; a Saturday; a closed Tuesday
)
def test_a_delivery_counts_as_the_shop_closes_on_the_first_open_day(day: int, shelf: datetime) -> None:
    assert on_the_shelf(date(2026, 12, day), HOURS) == shelf


def test_a_day_opens_with_its_first_open_minute_or_the_next_days() -> None:
    assert opening(date(2026, 12, 4), HOURS) == at(4, 8)
    assert opening(date(2026, 12, 5), HOURS) == at(7, 8)


@pytest.mark.parametrize(
    ("finish", "half", "ready"),
    [
        (at(1, 11, 59), "morning", at(1, 11, 59)),
        (at(1, 12), "afternoon", at(1, 13)),  # over lunch: fetched when it is over
        (at(1, 17), "morning", at(2, 8)),  # as the shop closes
        (at(4, 18), "morning", at(7, 8)),  # a cure through the weekend
    ],
)
def test_a_vehicle_is_ready_when_the_shop_is_next_open(finish: datetime, half: str, ready: datetime) -> None:
    result = half_day(finish, HOURS)
    assert (result.day, result.half, result.at) == (ready.date(), half, ready)


def test_the_way_begins_with_the_vehicle_and_breaks_at_each_wait() -> None:
    visit = ahead(STRIP, SEAL, FILL)
    assert [(leg.kind, leg.steps, leg.minutes) for leg in visit.legs] == [
        ("drop_off", (), 0),
        ("work", ("STRIP", "SEAL"), 0),
        ("wait", (), 180),
        ("work", ("FILL",), 0),
    ]
    assert visit.legs[2].title == "Sump sealed"
    assert visit.ready.half == "afternoon" and visit.promise.finish == at(1, 15)


def test_it_begins_with_the_arrival_that_comes_last() -> None:
    boxes = (
        ExpectedDelivery("Kit", "STRIP", at(3, 17)),
        ExpectedDelivery("Oil", "FILL", at(2, 17)),
        ExpectedDelivery("Seal", "STRIP", at(2, 17)),
    )
    visit = ahead(STRIP, SEAL, FILL, coming=boxes)
    assert (visit.legs[0].kind, visit.legs[0].title, visit.legs[0].since) == ("arrival", "Kit", at(3, 17))
    assert visit.legs[1].since == at(4, 8)


def test_what_belongs_to_no_step_is_needed_first() -> None:
    visit = ahead(STRIP, SEAL, FILL, coming=(ExpectedDelivery("Badge", "", at(2, 17)),))
    assert visit.coming[0].operation == "STRIP"
    assert visit.promise.schedule[0].start == at(3, 8)


def test_an_arrival_nobody_knows_is_named_and_not_counted() -> None:
    without = ahead(STRIP, SEAL, FILL)
    visit = ahead(
        STRIP, SEAL, FILL, coming=(ExpectedDelivery("Duct", "FILL", None), ExpectedDelivery("Duct", "SEAL", None))
    )
    assert [delivery.title for delivery in visit.unknown] == ["Duct"]
    assert visit.promise == without.promise


def test_a_last_cure_keeps_the_vehicle() -> None:
    visit = ahead(STRIP, Step("GLUE", "Trim glued", 2, D(1), ("STRIP",), wait_after=24 * 60))
    assert (visit.legs[-1].kind, visit.legs[-1].until) == ("wait", at(2, 11))
    assert visit.promise.finish == at(2, 11)


def test_the_legs_join_up_to_the_finish() -> None:
    visit = ahead(STRIP, SEAL, FILL, coming=(ExpectedDelivery("Kit", "SEAL", at(2, 17)),), team=Team(2, D("0.8")))
    ends = [leg.until for leg in visit.legs]
    assert all(leg.since <= leg.until for leg in visit.legs) and ends == sorted(ends)
    assert ends[-1] == visit.promise.finish.astimezone(UTC)


SETUP = Step("SETUP", "Received", 1, D(1))
FRONT = Step("FRONT", "Front off", 2, D(2), ("SETUP",), no_return=True)
TURBO = Step("TURBO", "Turbocharger on", 3, D(2), ("FRONT",))
SHUT = Step("SHUT", "Front on", 4, D(1), ("TURBO",), mobile_again=True)
TRIM = Step("TRIM", "Trim on", 5, D(1), ("SHUT",))


def started(visit: Visit) -> dict[str, datetime]:
    return {booking.code: booking.start for booking in visit.promise.schedule}


def test_nobody_takes_a_vehicle_apart_to_let_it_stand() -> None:
    visit = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=(ExpectedDelivery("Kit", "TURBO", at(3, 17)),))
    assert (started(visit)["SETUP"], started(visit)["FRONT"]) == (at(1, 8), at(4, 8))
    assert [leg.kind for leg in visit.legs] == ["drop_off", "work", "arrival", "work"]
    assert (visit.legs[1].steps, visit.legs[2].title) == (("SETUP",), "Kit")


def test_what_comes_before_its_step_begins_holds_nothing_up() -> None:
    visit = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=(ExpectedDelivery("Kit", "TURBO", at(1, 11)),))
    assert started(visit)["FRONT"] == at(1, 9)
    late = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=(ExpectedDelivery("Kit", "TURBO", at(1, 11, 1)),))
    assert started(late)["FRONT"] == at(1, 11, 1)


def test_what_is_needed_once_it_can_move_again_holds_nothing_up() -> None:
    visit = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=(ExpectedDelivery("Trim", "TRIM", at(3, 17)),))
    assert (started(visit)["FRONT"], started(visit)["TRIM"]) == (at(1, 9), at(4, 8))
    shut = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=(ExpectedDelivery("Clips", "SHUT", at(3, 17)),))
    assert started(shut)["FRONT"] == at(4, 8)


def test_of_several_late_things_the_last_holds_it_up() -> None:
    coming = (
        ExpectedDelivery("Kit", "TURBO", at(2, 17)),
        ExpectedDelivery("Clips", "SHUT", at(3, 17)),
        ExpectedDelivery("Cloth", "FRONT", at(1, 17)),
    )
    visit = ahead(SETUP, FRONT, TURBO, SHUT, TRIM, coming=coming)
    assert started(visit)["FRONT"] == at(4, 8)
    assert visit.legs[2].title == "Clips"


def test_what_comes_last_before_the_proposed_day_is_the_reason_for_it() -> None:
    coming = (
        ExpectedDelivery("Kit", "STRIP", at(3, 17)),
        ExpectedDelivery("Oil", "FILL", at(2, 17)),
        ExpectedDelivery("Old", "FILL", at(1, 7)),
    )
    visit = look_ahead((STRIP, SEAL, FILL), coming, HOURS, at(1, 8), Team())
    assert (visit.bring, [(leg.kind, leg.title) for leg in visit.legs][:2]) == (
        at(4, 8),
        [("arrival", "Kit"), ("drop_off", "")],
    )
    at_once = look_ahead((STRIP, SEAL, FILL), coming[2:], HOURS, at(1, 8), Team())
    assert (at_once.bring, [leg.kind for leg in at_once.legs][:2]) == (at(1, 8), ["drop_off", "work"])


def test_what_holds_the_front_up_is_named_by_its_delivery() -> None:
    visit = ahead(
        SETUP,
        FRONT,
        TURBO,
        SHUT,
        coming=(ExpectedDelivery("Cloth", "FRONT", at(2, 17)), ExpectedDelivery("Kit", "TURBO", at(3, 17))),
    )
    assert [leg.title for leg in visit.legs if leg.kind == "arrival"] == ["Kit"]


def test_work_begun_at_once_waits_for_nothing_but_hands() -> None:
    assert starts_at_once((STRIP, SEAL), HOURS, at(1, 8), Team(1, D(2))) == {"STRIP": at(1, 8), "SEAL": at(1, 9)}
