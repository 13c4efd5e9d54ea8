"""Records what became of a job's outside work: sent, asked again, come back, and a wrong entry undone."""

from datetime import date, datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction

from kitting.access import may_undo_outside
from kitting.calc.outside_log import EventKind, may_follow
from kitting.models import OutsideEvent
from kitting.queries.outside import JobOutside, job_outside
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Job
from shop.services import feed, history
from shop.services.jobs import check_day


@transaction.atomic
def record_outside(
    *,
    actor: Actor,
    job: Job,
    work: str,
    kind: EventKind,
    entry: UUID | None = None,
    happened_on: date,
    expected_on: date | None,
    reference: str,
    note: str,
    now: datetime,
) -> OutsideEvent:
    """Adds an entry to the log of a piece of work, under the job's lock.

    Refused: work that the job does not have, a day in the future, and 409 for an entry that cannot follow the last one.
    `entry` is the one to undo: the last that holds, recorded by the actor.
    """
    Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    piece = next((piece for piece in job_outside(job) if piece.work.code == work), None)
    if piece is None:
        raise field_error("/work", "not_outside_of_job")
    if not may_follow(kind, piece.progress):
        raise RequestError(409, "outside-moved")
    if kind == "undone":
        _check_undo(actor, piece, entry)
    today = now.astimezone(ZoneInfo(actor.shop.zone)).date()
    if happened_on > today:
        raise field_error("/happened_on", "day_to_come")
    check_day(happened_on, today, "/happened_on")
    if expected_on is not None:
        check_day(expected_on, today, "/expected_on")
    row = OutsideEvent(
        shop=actor.shop,
        job=job,
        work=work,
        kind=kind,
        happened_on=happened_on,
        expected_on=expected_on if kind in ("sent", "asked") else None,
        reference=reference,
        note=note,
        recorded_at=now,
        recorded_by=actor.member,
    )
    row.clean_fields()
    row.save(force_insert=True)
    history.record(actor=actor, verb=f"outside work {kind}", row=job, changes={"work": ["", piece.work.title]})
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return row


def _check_undo(actor: Actor, piece: JobOutside, entry: UUID | None) -> None:
    """Refuses to undo an entry that is not named, not the last one, or a colleague's."""
    if entry is None:
        raise field_error("/entry", "outside_entry")
    row = piece.last
    if row is None or row.pk != entry:
        raise RequestError(409, "outside-moved")
    if not may_undo_outside(actor, row):
        raise RequestError(409, "outside-of-colleague", name=row.recorded_by.user.name)
