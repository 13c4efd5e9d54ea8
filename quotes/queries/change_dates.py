"""The date of a job with a change to it and without, for the person who is asked to agree to the change."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from kitting.calc.job_readiness import JobWork, find_shortages, judge_job
from kitting.queries.readiness import load_job
from quotes.calc.plan import WorkPlan, deliveries, plan_from
from shop.calc.days import HalfDay, quarter_of
from shop.calc.errors import CalculationError
from shop.calc.visit import Visit, look_ahead
from shop.models import Job

ENDED = (Job.State.HANDED_OVER, Job.State.CALLED_OFF)


@dataclass(frozen=True, slots=True)
class ChangeDates:
    """The half days on which the vehicle is ready without the change and with it."""

    before: HalfDay
    after: HalfDay

    @property
    def days(self) -> int:
        """The calendar days that the change adds."""
        return (self.after.day - self.before.day).days


def change_plan(document: Mapping[str, Any]) -> WorkPlan | None:
    """The frozen plan of a change; None where it has none, or takes something off: that work has no plan."""
    if "change" not in document or "plan" not in document or document["shown"].get("taken"):
        return None
    return plan_from(document["plan"], {kit["title"] for kit in document["shown"]["kits"]})


def change_dates(job: Job, plan: WorkPlan | None, now: datetime) -> ChangeDates | None:
    """Both dates, if the change is agreed and ordered `now`; None where either is not known.

    Steps that the job has already are not added again.
    """
    if plan is None or job.state in ENDED:
        return None
    work = load_job(job, now).work
    try:
        before = judge_job(work, find_shortages(work), defaultdict(str)).ahead
        after = before and _with(plan, before, work)
    except CalculationError:
        return None
    if before is None or after is None or before.dateless or after.dateless:
        return None
    return ChangeDates(before.ready, after.ready)


def _with(plan: WorkPlan, before: Visit, work: JobWork) -> Visit | None:
    if work.calendar is None:
        return None
    now, held_codes = quarter_of(work.now), {step.code for step in work.planned}
    added = [step for step in plan.planned if step.code not in held_codes]
    codes = held_codes | {step.code for step in added}
    steps = [
        *work.planned,
        *(replace(step, after=tuple(code for code in step.after if code in codes)) for step in added),
    ]
    coming = (*before.coming, *deliveries(plan, work.calendar, now))
    return look_ahead(steps, coming, work.calendar, now, work.team, work.here_from)
