"""Changes to an open job."""

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.changes import JobChangesOut
from quotes.answers.job_extras import CallOffOut, ExtraWorkOut
from quotes.answers.quotes import QuoteOut
from quotes.calc.answer import AnswerForm
from quotes.models.answers import AnswerWay
from quotes.presenters.changes import job_changes_answer
from quotes.presenters.job_extras import call_off_answer, extra_work_answer
from quotes.presenters.quote import quote_answer
from quotes.queries import frozen
from quotes.queries.changes import agreed_job
from quotes.serializers.changes import CallOffIn, TakenOffIn, UnaskedIn, WorkedHoursIn
from quotes.services import changes
from quotes.services.acceptance import Spoken, accept_revision
from quotes.services.calling_off import call_off
from quotes.services.worked_hours import correct_hours
from quotes.views.quotes import COUNTER, answer
from quotes.views.spoken import refusals
from shop.answers.jobs import JobOut
from shop.api.endpoint import Endpoint
from shop.queries.calendar import shop_day
from shop.serializers.nothing import Nothing
from shop.views.jobs import JobEndpoint
from shop.words.languages import speaking


class JobChanges(Endpoint):
    """The changes to a job, each a quote of its own."""

    request_bodies = {"post": Nothing}
    responses = {"get": JobChangesOut, "post": {201: QuoteOut}}
    permissions = {"get": COUNTER, "post": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the changes to a job, with what is left of the ceiling."""
        job = shop.access.job(self.actor, id)
        rows = list(access.changes_of(self.actor, job))
        return Response(job_changes_answer(job, agreed_job(job, self.actor.shop), rows, timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Begin a change to a job."""
        return answer(changes.start_change(actor=self.actor, job=shop.access.job(self.actor, id)), 201)


class TakenOff(Endpoint):
    """The items that a change takes off its job."""

    request_bodies = {"put": TakenOffIn}
    responses = {"put": QuoteOut}
    permissions = {"put": COUNTER}
    versioned = frozenset({"put"})

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Set what a change takes off its job."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        chosen = [(str(item["source"]), item["item"]) for item in self.body(request)["items"]]
        return answer(changes.take_off(actor=self.actor, quote=quote, seen=seen, chosen=chosen))


class Unasked(Endpoint):
    """The workshop goes ahead with a change within what may be done without asking."""

    request_bodies = {"post": UnaskedIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Go ahead with a change without asking the customer."""
        quote, body, now = access.quote(self.actor, id), self.body(request), timezone.now()
        member = self.actor.member
        assert member is not None
        revision = access.sent_revision(quote, body["revision"])
        document = frozen.read(revision) if revision else {}
        form = AnswerForm(body["revision"], body["digest"], member.user.name, (), "", "")
        with refusals(document), speaking(document.get("language", ""), *quote.languages):
            accept_revision(source=Spoken(self.actor, quote, AnswerWay.CEILING, "", now), answer=form, now=now)
        return Response(quote_answer(access.current(access.quote(self.actor, id)), now), status=201)


class ExtraWork(Endpoint):
    """Whether extra work on a job may go ahead. No price: a technician reads it."""

    responses = {"get": ExtraWorkOut}
    permissions = {"get": shop.access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read whether extra work may go ahead."""
        job = shop.access.job(self.actor, id)
        rows, today = list(access.changes_of(self.actor, job)), shop_day(self.actor.shop, timezone.now())
        return Response(extra_work_answer(agreed_job(job, self.actor.shop), rows, today))


class CallOff(JobEndpoint):
    """A job that is called off, and what is left of it."""

    request_bodies = {"post": CallOffIn}
    responses = {"get": CallOffOut, "post": JobOut}
    permissions = {"get": COUNTER, "post": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what can go back and what is owed if the job is called off."""
        job = shop.access.job(self.actor, id)
        return Response(call_off_answer(agreed_job(job, self.actor.shop), job, self.actor.shop))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Call off a job."""
        job, body = shop.access.job(self.actor, id), self.body(request)
        call_off(actor=self.actor, job=job, because=body["because"], now=timezone.now())
        return self.answer(id)


class StepHours(Endpoint):
    """The hours of a step that a called-off job owes."""

    request_bodies = {"post": WorkedHoursIn}
    responses = {"post": {201: CallOffOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, step: UUID) -> Response:
        """Correct the hours owed for a step of a called-off job."""
        job, body = shop.access.job(self.actor, id), self.body(request)
        row = shop.access.step(self.actor, job, step)
        correct_hours(actor=self.actor, step=row, hours=body["hours"], reason=body["reason"], now=timezone.now())
        return Response(call_off_answer(agreed_job(job, self.actor.shop), job, self.actor.shop), status=201)
