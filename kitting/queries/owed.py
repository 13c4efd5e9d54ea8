"""Outside work that is with its firm, of all jobs of a shop."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, QuerySet

from kitting.calc.outside_log import OutsideProgress, due_back
from kitting.models import OutsideEvent
from kitting.queries.outside import outside_logs, outside_of_steps, progress_of
from shop.calc.outside import PlannedOutsideWork, outside_from
from shop.calc.worktime import WorkCalendar
from shop.models import Job, JobOperation, Shop
from shop.queries.calendar import opening_hours

LOOKED_BACK = timedelta(days=400)
MOST = 200
NO_DAY = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class OutsideOwed:
    """A piece of work that is out: `due` is when it is due back, None without a day."""

    job: Job
    work: PlannedOutsideWork
    progress: OutsideProgress
    due: datetime | None

    def late(self, now: datetime) -> bool:
        return self.due is not None and self.due <= now


def outside_owed(shop: Shop, now: datetime) -> list[OutsideOwed]:
    """The work that is out, what is due first at the front and what has no day at the end. Four queries."""
    today = now.astimezone(ZoneInfo(shop.zone)).date()
    jobs = {job.pk: job for job in _jobs_with_work_out(shop, today)}
    if not jobs:
        return []
    logs = outside_logs(shop, jobs)
    steps = JobOperation.objects.filter(shop=shop, job__in=list(jobs), cancellation__isnull=True).order_by("position")
    pieces = [
        (jobs[step.job_id], outside_from(work), progress_of(logs[step.job_id][work["code"]]))
        for step in steps
        for work in outside_of_steps([step])
        if work["code"] in logs[step.job_id]
    ]
    return sorted(_out(shop, pieces, today), key=_first_due)


def _jobs_with_work_out(shop: Shop, today: date) -> Sequence[Job]:
    """Jobs with work that was sent and has not come back since; a wrong entry is sorted out by its log."""
    back, undone = _later(OutsideEvent.Kind.BACK), _later(OutsideEvent.Kind.UNDONE)
    sent = OutsideEvent.objects.filter(
        shop=shop, kind=OutsideEvent.Kind.SENT, happened_on__gte=today - LOOKED_BACK
    ).filter(~Exists(back) | Exists(undone))
    ids = set(sent.order_by("-happened_on").values_list("job", flat=True)[:MOST])
    return list(Job.objects.filter(shop=shop, pk__in=ids).select_related("customer", "vehicle"))


def _later(kind: str) -> QuerySet[OutsideEvent]:
    """Later entries of a kind about the same work."""
    return OutsideEvent.objects.filter(
        shop=OuterRef("shop"),
        job=OuterRef("job"),
        work=OuterRef("work"),
        kind=kind,
        recorded_at__gt=OuterRef("recorded_at"),
    )


def _out(
    shop: Shop, pieces: Sequence[tuple[Job, PlannedOutsideWork, OutsideProgress]], today: date
) -> list[OutsideOwed]:
    sent = [progress.sent_on for _, _, progress in pieces if progress.state == "sent" and progress.sent_on]
    calendar: WorkCalendar | None = opening_hours(shop, min([today, *sent])) if sent else None
    return [
        OutsideOwed(job, work, progress, due_back(progress, work.days, calendar))
        for job, work, progress in pieces
        if progress.state == "sent"
    ]


def _first_due(owed: OutsideOwed) -> tuple[datetime, int]:
    return owed.due or NO_DAY, owed.job.number
