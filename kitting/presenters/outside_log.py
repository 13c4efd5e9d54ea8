"""The outside work of a job and its log in words."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from kitting.access import may_undo_outside
from kitting.answers.outside import JobOutsideOut, JobOutsidesOut, OutsideEventOut, OutsideState
from kitting.calc.outside_log import OutsideProgress, due_back
from kitting.models import OutsideEvent
from kitting.models.outside import OutsideEventKind
from kitting.queries.outside import JobOutside, job_outside
from shop.access import Actor
from shop.answers.base import utc
from shop.calc.worktime import WorkCalendar
from shop.models import Job
from shop.presenters.dates import short_day
from shop.queries.calendar import opening_hours
from shop.words import say


def job_outside_answer(actor: Actor, job: Job, now: datetime) -> JobOutsidesOut:
    pieces, zone = job_outside(job), ZoneInfo(job.shop.zone)
    sent = [piece.progress.sent_on for piece in pieces if piece.progress.sent_on]
    today = now.astimezone(zone).date()
    calendar = opening_hours(job.shop, min([today, *sent])) if sent else None
    return JobOutsidesOut(job=job.pk, items=[_piece(actor, piece, calendar, now) for piece in pieces])


def _piece(actor: Actor, piece: JobOutside, calendar: WorkCalendar | None, now: datetime) -> JobOutsideOut:
    zone, last = ZoneInfo(actor.shop.zone), piece.last
    progress, today = piece.progress, now.astimezone(zone).date()
    due = due_back(progress, piece.work.days, calendar)
    due_on = due.astimezone(zone).date() if due else None
    state = outside_state(progress, due, now)
    return JobOutsideOut(
        work=piece.work.code,
        title=piece.work.title,
        firm=piece.work.firm,
        state=state,
        words=outside_sentence(progress, state, due_on, today),
        they_need=piece.they_need,
        reference=next((row.reference for row in reversed(piece.log) if row.reference), ""),
        rounds=progress.rounds,
        due_on=due_on,
        undo=last.pk if last is not None and may_undo_outside(actor, last) else None,
        log=[_entry(row) for row in piece.log],
    )


def outside_state(progress: OutsideProgress, due: datetime | None, now: datetime) -> OutsideState:
    return "late" if progress.state == "sent" and due is not None and due <= now else progress.state


def outside_sentence(progress: OutsideProgress, state: OutsideState, due_on: date | None, today: date) -> str:
    """Words for the state of the work: not sent, due back on a day, late, or back; and when we asked again."""
    if state == "proposed":
        return say("outside_log.proposed")
    if state == "back":
        assert progress.back_on is not None, "what is back came on a day"
        return say("outside_log.back", day=short_day(progress.back_on, today), n=progress.rounds)
    assert progress.sent_on is not None, "what is out was sent on a day"
    facts = {"sent": short_day(progress.sent_on, today), "n": progress.rounds}
    if due_on is None:
        sentence = say("outside_log.sent_no_day", **facts)
    else:
        sentence = say(
            "outside_log.late" if state == "late" else "outside_log.sent", due=short_day(due_on, today), **facts
        )
    if progress.asked_on is None:
        return sentence
    return say("outside_log.asked", sentence=sentence, day=short_day(progress.asked_on, today))


def _entry(row: OutsideEvent) -> OutsideEventOut:
    return OutsideEventOut(
        id=row.pk,
        kind=OutsideEventKind(row.kind),
        happened_on=row.happened_on,
        expected_on=row.expected_on,
        reference=row.reference,
        note=row.note,
        recorded_at=utc(row.recorded_at),
        recorded_by=row.recorded_by.user.name,
    )
