from datetime import datetime, timedelta
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.counter import CounterOut
from quotes.answers.follow_ups import CallOut, UnansweredOut
from quotes.answers.mails import MailTroubleOut
from quotes.answers.search import FoundOut
from quotes.models import Revision
from quotes.presenters import search
from quotes.presenters.follow_ups import call_answer, follow_up_answer
from quotes.presenters.mails import trouble_answer
from quotes.presenters.occurrences import beyond_answer
from quotes.presenters.questions import asked_answer
from quotes.presenters.quote import quote_row
from quotes.queries.occurrences import beyond_cap
from quotes.serializers import requests
from quotes.services.follow_ups import record_call
from quotes.services.mails import KINDS
from quotes.views.quotes import COUNTER
from shop.access import EVERYONE
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.queries.outbox import waiting_for_a_person

RECENT = timedelta(days=14)
SHOWN = 20


class Counter(Endpoint):
    """The counter's lists: customer replies, quotes to follow up, drafts."""

    responses = {"get": CounterOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str) -> Response:
        """Read the counter's lists."""
        now = timezone.now()
        newest = access.newest_revisions(self.actor)
        answered = access.answered(self.actor, now - RECENT)
        drafts = newest.filter(state=Revision.State.DRAFT).order_by("-changed_at")
        replies, aside = ([quote_row(row, now) for row in rows[:SHOWN]] for rows in (answered, drafts))
        questions = [asked_answer(question) for question in access.open_questions(self.actor)[:SHOWN]]
        beyond = [beyond_answer(row) for row in beyond_cap(self.actor.shop, now - RECENT, SHOWN)]
        return Response(CounterOut(questions, replies, self._follow_up(now), aside, beyond, self._mails(now)))

    def _follow_up(self, now: datetime) -> list[UnansweredOut]:
        rows = list(access.to_follow_up(self.actor, now)[:SHOWN])
        calls = access.newest_calls(self.actor, [row.quote_id for row in rows]) if rows else {}
        return [follow_up_answer(row, calls.get(row.quote_id), now) for row in rows]

    def _mails(self, now: datetime) -> list[MailTroubleOut]:
        rows = list(waiting_for_a_person(self.actor.shop, now).filter(kind__in=KINDS)[:SHOWN])
        mailed = access.quotes(self.actor).filter(pk__in=[row.subject_id for row in rows]).select_related("customer")
        quotes = {quote.pk: quote for quote in mailed} if rows else {}
        return [trouble_answer(row, quotes, self.actor.shop, now) for row in rows]


class FollowUps(Endpoint):
    """Record a call to a customer who has not answered."""

    request_bodies = {"post": requests.CallIn}
    responses = {"post": {201: CallOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record a call about a sent quote."""
        quote, body = access.quote(self.actor, id), self.body(request)
        call = record_call(actor=self.actor, quote=quote, outcome=body["outcome"], now=timezone.now())
        return Response(call_answer(call), status=201)


class Find(Endpoint):
    """Find by a name, a plate, the end of a VIN, a quote number or a part number."""

    responses = {"get": list_of(FoundOut)}
    permissions = {"get": EVERYONE}
    query_parameters = {"q": "what was typed or scanned"}

    def get(self, request: Request, slug: str) -> Response:
        """Find customers, vehicles, quotes, kits, parts, jobs and outside work."""
        return Response({"items": search.find(self.actor, request.query_params.get("q", ""), timezone.now())})
