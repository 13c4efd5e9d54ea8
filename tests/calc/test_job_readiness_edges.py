"""The days from which turnarounds and lead times count, and other things that a job waits for."""

from dataclasses import replace
from datetime import date
from decimal import Decimal as D

import pytest

from kitting.calc.job_readiness import JobWork, find_shortages, judge_job, waited_for
from kitting.calc.missing import NeededItem
from kitting.calc.still_to_order import single_lines
from shop.calc.visit import Step
from tests.calc.test_job_readiness import BOLT, CLOSE, DUCT, FIT, NOW, RING, SETUP, STRIP, at, work


def waits_for(job: JobWork) -> int:
    shortages = find_shortages(job)
    judged = judge_job(job, shortages, {group.key: group.first.item.title for group in shortages.groups})
    return len(waited_for(judged.readiness, job, shortages))


def test_lead_days_count_from_the_day_of_acceptance() -> None:
    assert find_shortages(work(DUCT, opened_on=date(2026, 11, 26))).missing[0].due == at(3, 17)


def test_two_copies_of_a_kit_are_said_one_by_one() -> None:
    box = [replace(DUCT, line=f"{n}", copy=1 + n % 2) for n in range(4)]
    assert [(group.kind, len(group.lines)) for group in find_shortages(work(*box)).groups] == [("kit", 2), ("kit", 2)]


@pytest.mark.parametrize(
    ("day", "begin"), [(None, at(1, 9, 30)), (1, at(1, 9, 30)), (2, at(2, 8))], ids=["here", "today", "tomorrow"]
)
def test_a_vehicle_that_comes_today_is_worked_on_from_now(day: int | None, begin: object) -> None:
    job = work(now=at(1, 9, 31), here_from=None if day is None else date(2026, 12, day))
    ahead = judge_job(job, find_shortages(job), {}).ahead
    assert ahead is not None and ahead.promise.schedule[0].start == begin


def test_what_is_short_before_the_held_steps_is_waited_for_as_well() -> None:
    tool = NeededItem("tool", "Tool", "SETUP", need=1, have=0)
    paint = NeededItem("paint", "Paint", "PAINT", need=1, have=0)
    aside = Step("PAINT", "Paint", 5, D(1))
    assert waits_for(work(RING, tool, paint, steps=(SETUP, STRIP, FIT, CLOSE, aside))) == 2


def test_what_lies_beside_and_was_counted_short_is_not_bought() -> None:
    assert list(single_lines([BOLT, replace(BOLT, line="spare", taken=False)], NOW)) == [("bolt", D(1))]
