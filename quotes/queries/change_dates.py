"""The date of a job with a change to it and without, for the person who is asked to agree to the change."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from kitting.calc.job_readiness import find_shortages, judge_job
from kitting.queries.readiness import LoadedJob, load_job
from quotes.calc.consents import FrozenRules, first_days
from quotes.calc.plan import WorkPlan, deliveries, plan_from
from shop.calc.days import HalfDay, here_from, quarter_of
from shop.calc.errors import CalculationError
from shop.calc.outside import PlannedOutsideWork, with_outside
from shop.calc.placing import AgreedStep, joining_steps, place_steps
from shop.calc.sheet import SheetStep
from shop.calc.visit import ExpectedDelivery, Step, Visit, look_ahead
from shop.calc.worktime import WorkCalendar
from shop.models import Job
from shop.models.jobs import ENDED


@dataclass(frozen=True, slots=True)
class ChangeDates:
    """The half days on which the vehicle is ready without the change and with it.

    `later`: with it, where the customer does not consent to begin within the withdrawal period; None if the consent
    decides nothing or the half day is not known.
    """

    before: HalfDay
    after: HalfDay
    later: HalfDay | None = None

    @property
    def days(self) -> int:
        """The calendar days that the change adds."""
        return (self.after.day - self.before.day).days


@dataclass(frozen=True, slots=True)
class ChangePlan:
    """The plan of a change, the install stages of its operations by code, and its terms of withdrawal."""

    work: WorkPlan
    stages: Mapping[str, str]
    terms: FrozenRules


def change_plan(document: Mapping[str, Any]) -> ChangePlan | None:
    """The frozen plan of a change; None where it has none, or takes something off: that work has no plan."""
    if "change" not in document or "plan" not in document or document["shown"].get("taken"):
        return None
    stages = document["shown"]["labour"].get("stages", ())
    return ChangePlan(
        plan_from(document["plan"], {kit["title"] for kit in document["shown"]["kits"]}),
        {key.removeprefix("labour:"): stage["title"] for stage in stages for key in stage["keys"]},
        document["rules"],
    )


def change_dates(job: Job, plan: ChangePlan | None, now: datetime) -> ChangeDates | None:
    """The dates, if the change is agreed `now`; None where that without it or with it is not known.

    The steps join the job as its acceptance would have them (`joining_steps`), each in its place.
    """
    if plan is None or job.state in ENDED:
        return None
    loaded = load_job(job, now)
    work = loaded.work
    try:
        before = judge_job(work, find_shortages(work), defaultdict(str)).ahead
    except CalculationError:
        return None
    if before is None or before.dateless or work.calendar is None:
        return None
    early, late = first_days(plan.terms, now.astimezone(work.calendar.zone).date())
    after = _ready_with(plan, before, loaded, work.calendar, early)
    if after is None:
        return None
    return ChangeDates(
        before.ready, after, _ready_with(plan, before, loaded, work.calendar, late) if late != early else None
    )


def _ready_with(
    plan: ChangePlan, before: Visit, job: LoadedJob, calendar: WorkCalendar, first_day: date | None
) -> HalfDay | None:
    """The half day with the change, none of which is ordered or begun before its `first_day`; None if not known."""
    work, now = job.work, quarter_of(job.work.now)
    steps, outside = _joined(plan, job, now)
    planned = with_outside(steps, (*work.proposed, *outside))
    begins = here_from(first_day, calendar, now)
    added = (ExpectedDelivery("", step.code, begins, withdrawal=True) for step in steps if step.code not in work.codes)
    try:
        coming = (*before.coming, *deliveries(plan.work, calendar, begins), *(added if first_day else ()))
        after = look_ahead(planned, coming, calendar, now, work.team, work.here_from)
    except CalculationError:
        return None
    return None if after.dateless else after.ready


def _joined(plan: ChangePlan, job: LoadedJob, now: datetime) -> tuple[list[Step], list[PlannedOutsideWork]]:
    """The steps of job and change in their order, and the change's outside work, as if it were agreed `now`."""
    codes = set(job.work.codes)
    sheet = [SheetStep(step.code, step.after, hours=step.hours) for step in plan.work.steps]
    joining = {step.sold: step for step in joining_steps(sheet, codes, codes)}
    added = {
        joining[step.code].code: replace(step, code=joining[step.code].code, after=joining[step.code].after)
        for step in plan.work.steps
        if step.code in joining
    }
    latest = max((step.agreement for step in job.agreed), default=1) + 1
    order = place_steps(
        [
            *job.agreed,
            *(
                AgreedStep(step.code, plan.stages.get(step.sold, ""), step.after, step.before, latest, now)
                for step in joining.values()
            ),
        ]
    )
    steps = {step.code: step for step in job.work.steps} | added
    waits = {code: [step.code for step in joining.values() if code in step.before] for code in codes}
    placed = [_waiting(steps[code], waits.get(code, ()), steps) for code in order]
    renamed = {step.sold: step.code for step in joining.values()}
    outside = [
        replace(
            work,
            starts_after=renamed.get(work.starts_after, work.starts_after),
            needed_by=renamed.get(work.needed_by, work.needed_by),
        )
        for work in plan.work.outside
    ]
    return placed, outside


def _waiting(step: Step, added: Iterable[str], steps: Collection[str]) -> Step:
    """The step with its predecessors and those that are added ahead of it, without any that the job lacks."""
    return replace(step, after=tuple(code for code in (*step.after, *added) if code in steps))
