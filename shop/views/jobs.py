from datetime import date
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.jobs import JobOut, JobRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.query_parameters import one_of
from shop.errors import field_error
from shop.models import Job as JobRow
from shop.presenters.bay_notices import bay_notices
from shop.presenters.jobs import job_answer, job_row
from shop.queries.steps import steps_to_work_from
from shop.serializers.jobs import JobIn, JobMoveIn, UndoneMoveIn
from shop.serializers.nothing import Nothing
from shop.services import job_states, jobs, steps


class Jobs(Endpoint):
    """Jobs, newest first."""

    responses = {"get": list_of(JobRowOut)}
    permissions = {"get": access.EVERYONE}
    query_parameters = {
        "state": one_of("open: not handed over, not called off; or one state", ["open", *JobRow.State.values])
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the jobs, newest first."""
        state = request.query_params.get("state")
        rows = access.open_jobs(self.actor) if state == "open" else access.jobs(self.actor)
        if state not in (None, "open"):
            if state not in JobRow.State.values:
                raise field_error("/state", "unknown_state", known=", ".join(["open", *JobRow.State.values]))
            rows = rows.filter(state=state)
        return self.page(request, rows, ("-number",), job_row)


class JobEndpoint(Endpoint):
    """The base of what answers with one job."""

    def answer(self, id: UUID) -> Response:
        job = access.job(self.actor, id)
        operations = steps_to_work_from(self.actor.shop, job)
        notices = bay_notices(self.actor.shop, job.vehicle.attributes, self.today())
        return versioned(job_answer(job, operations, notices), job.version)

    def today(self) -> date:
        return timezone.now().astimezone(ZoneInfo(self.actor.shop.zone)).date()


class Job(JobEndpoint):
    """One job with the work as it was sold. No price and no cost: a technician reads it."""

    request_bodies = {"patch": JobIn}
    responses = {"get": JobOut, "patch": JobOut}
    permissions = {"get": access.EVERYONE, "patch": access.STORES}
    versioned = frozenset({"patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one job."""
        return self.answer(id)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Record when the vehicle comes."""
        job, seen, changes = access.job(self.actor, id), self.expected_version(request), self.body(request)
        if not changes:
            raise field_error("/here_from", "missing")
        jobs.change_job(actor=self.actor, job=job, seen=seen, changes=changes, today=self.today())
        return self.answer(id)


class InBay(JobEndpoint):
    """Work on the vehicle has begun."""

    request_bodies = {"post": JobMoveIn}
    responses = {"post": JobOut}
    permissions = {"post": access.FLOOR}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record that the vehicle is in the bay."""
        job, body = access.job(self.actor, id), self.body(request)
        job_states.take_into_bay(
            actor=self.actor, job=job, day=body["day"], odometer=body.get("odometer"), today=self.today()
        )
        return self.answer(id)


class HandOver(JobEndpoint):
    """The customer has the vehicle back."""

    request_bodies = {"post": JobMoveIn}
    responses = {"post": JobOut}
    permissions = {"post": access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record that the vehicle was handed over."""
        job, body = access.job(self.actor, id), self.body(request)
        job_states.hand_over(
            actor=self.actor, job=job, day=body["day"], odometer=body.get("odometer"), today=self.today()
        )
        return self.answer(id)


class InBayUndone(JobEndpoint):
    """Take back that the vehicle came into the bay."""

    request_bodies = {"post": UndoneMoveIn}
    responses = {"post": JobOut}
    permissions = {"post": access.FLOOR}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Undo that the vehicle is in the bay."""
        job, body = access.job(self.actor, id), self.body(request)
        job_states.undo_state(actor=self.actor, job=job, state=JobRow.State.IN_BAY, because=body["because"])
        return self.answer(id)


class HandOverUndone(JobEndpoint):
    """Take back the hand-over."""

    request_bodies = {"post": UndoneMoveIn}
    responses = {"post": JobOut}
    permissions = {"post": access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Undo that the vehicle was handed over."""
        job, body = access.job(self.actor, id), self.body(request)
        job_states.undo_state(actor=self.actor, job=job, state=JobRow.State.HANDED_OVER, because=body["because"])
        return self.answer(id)


class StepDone(JobEndpoint):
    """A step of the job is done."""

    request_bodies = {"post": Nothing}
    responses = {"post": JobOut}
    permissions = {"post": access.FLOOR}

    def post(self, request: Request, slug: str, id: UUID, step: UUID) -> Response:
        """Mark a step as done."""
        row = access.step(self.actor, access.job(self.actor, id), step)
        steps.mark_done(actor=self.actor, step=row, now=timezone.now())
        return self.answer(id)


class StepDoneUndone(JobEndpoint):
    """Take back that a step is done."""

    request_bodies = {"post": Nothing}
    responses = {"post": JobOut}
    permissions = {"post": access.FLOOR}

    def post(self, request: Request, slug: str, id: UUID, step: UUID) -> Response:
        """Take back that a step is done."""
        row = access.step(self.actor, access.job(self.actor, id), step)
        steps.take_back(actor=self.actor, step=row)
        return self.answer(id)
