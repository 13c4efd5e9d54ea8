"""The states of a job that a person sets: in the bay, handed over, called off. A wrong tap is undone with a reason."""

from datetime import date
from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Job
from shop.services import feed, history
from shop.services.webhooks import announce_job

BEFORE_THE_BAY = (Job.State.ACCEPTED, Job.State.WAITING, Job.State.READY)
IN_WORK = (Job.State.IN_BAY, Job.State.IN_CHECKS)
UNDONE = {
    Job.State.IN_BAY: (Job.State.ACCEPTED, ("in_bay_on", "odometer_in")),
    Job.State.HANDED_OVER: (Job.State.IN_BAY, ("handed_over_on", "odometer_out")),
}
"""Maps a state that can be undone to the state before it and to the fields that it set."""


@transaction.atomic
def take_into_bay(*, actor: Actor, job: Job, day: date, odometer: int | None, today: date) -> Job:
    """Records that work on the vehicle begins on `day`. 409 unless the job waits for the bay."""
    row = _locked(job, BEFORE_THE_BAY, "job-not-waiting")
    _refuse_future(day, today)
    return _moved(actor, row, "taken into the bay", state=Job.State.IN_BAY, in_bay_on=day, odometer_in=odometer)


@transaction.atomic
def hand_over(*, actor: Actor, job: Job, day: date, odometer: int | None, today: date) -> Job:
    """Records that the customer has the vehicle back. 409 unless it is in the bay or in its checks."""
    row = _locked(job, IN_WORK, "job-not-in-bay")
    _refuse_future(day, today)
    if row.in_bay_on and day < row.in_bay_on:
        raise field_error("/day", "before_the_bay")
    if odometer is not None and row.odometer_in is not None and odometer < row.odometer_in:
        raise field_error("/odometer", "odometer_back", reading=row.odometer_in)
    return _moved(actor, row, "handed over", state=Job.State.HANDED_OVER, handed_over_on=day, odometer_out=odometer)


@transaction.atomic
def undo_state(*, actor: Actor, job: Job, state: str, because: str) -> Job:
    """Takes a state back that was set by mistake. 409 unless the job is in it. The reason stays in the history."""
    row = _locked(job, (state,), "job-state-moved")
    before, fields = UNDONE[Job.State(state)]
    return _moved(actor, row, "state undone", because=because, state=before, **dict.fromkeys(fields))


def _locked(job: Job, states: tuple[str, ...], code: str) -> Job:
    row = Job.objects.select_for_update().get(pk=job.pk)
    if row.state not in states:
        raise RequestError(409, code)
    return row


def _refuse_future(day: date, today: date) -> None:
    if day > today:
        raise field_error("/day", "day_to_come")


def _moved(actor: Actor, row: Job, verb: str, because: str = "", **fields: Any) -> Job:
    changes = {name: [_as_json(getattr(row, name)), _as_json(value)] for name, value in fields.items()}
    for name, value in fields.items():
        setattr(row, name, value)
    row.version += 1
    row.clean_fields()
    row.save(update_fields=[*fields, "version"])
    reason = {"reason": ["", because]} if because else {}
    history.record(actor=actor, verb=verb, row=row, changes=changes | reason)
    announce_job(actor=actor, job=row)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return row


def _as_json(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value
