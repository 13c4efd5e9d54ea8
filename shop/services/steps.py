"""Marks the steps of a job as done, and takes a wrong tap back."""

from datetime import datetime

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job, JobOperation
from shop.services import feed, history

State = JobOperation.State


@transaction.atomic
def mark_done(*, actor: Actor, step: JobOperation, now: datetime) -> None:
    """Records that a step was done; the first record of it stays. 409 for a step that an agreement took off.

    Work that was done is recorded in every state of the job: what was done on a called-off job is owed.
    """
    row = _locked(step)
    if row.state == State.DONE:
        return
    before = str(row.state)
    row.state, row.done_at, row.done_by = State.DONE, now, actor.member
    _save(actor, row, "marked as done", before)


@transaction.atomic
def take_back(*, actor: Actor, step: JobOperation) -> None:
    """Marks a step as not done. The history keeps who had marked it as done."""
    row = _locked(step)
    if row.state != State.DONE:
        return
    row.state = State.RUNNING if row.started_at else State.OPEN
    row.done_at = row.done_by = None
    _save(actor, row, "done taken back", str(State.DONE))


def _locked(step: JobOperation) -> JobOperation:
    Job.objects.select_for_update().get(shop=step.shop_id, pk=step.job_id)
    row = JobOperation.objects.get(shop=step.shop_id, pk=step.pk)
    if row.cancellation_id is not None:
        raise RequestError(409, "step-taken-off")
    return row


def _save(actor: Actor, row: JobOperation, verb: str, before: str) -> None:
    row.clean_fields()
    row.save(update_fields=["state", "done_at", "done_by"])
    history.record(actor=actor, verb=verb, row=row, changes={"state": [before, str(row.state)]})
    feed.record(actor=actor, kind=feed.Kind.JOBS)
