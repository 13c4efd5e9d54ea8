from datetime import datetime, timedelta

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.mails import MailTroubleOut
from quotes.answers.rows import CounterOut
from quotes.answers.search import FoundOut
from quotes.models import Revision
from quotes.presenters import search
from quotes.presenters.mails import trouble_answer
from quotes.presenters.questions import asked_answer
from quotes.presenters.quote import quote_row
from quotes.services.mails import KINDS
from quotes.views.quotes import COUNTER
from shop.access import EVERYONE
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.queries.outbox import waiting_for_a_person

RECENT, LATELY, SOON = timedelta(days=14), timedelta(days=7), timedelta(days=4)
SHOWN = 20


class Counter(Endpoint):
    """The counter's lists: customer replies, quotes about to expire, drafts."""

    responses = {"get": CounterOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str) -> Response:
        """Read the counter's lists."""
        now = timezone.now()
        newest = access.newest_revisions(self.actor)
        answered = access.answered(self.actor, now - RECENT)
        near = {"valid_until__gte": now - LATELY, "valid_until__lt": now + SOON}
        lapsing = newest.filter(state=Revision.State.SENT, **near).order_by("valid_until")
        drafts = newest.filter(state=Revision.State.DRAFT).order_by("-changed_at")
        replies, expiring, aside = (
            [quote_row(row, now) for row in rows[:SHOWN]] for rows in (answered, lapsing, drafts)
        )
        questions = [asked_answer(question) for question in access.open_questions(self.actor)[:SHOWN]]
        return Response(CounterOut(questions, replies, expiring, aside, self._mails(now)))

    def _mails(self, now: datetime) -> list[MailTroubleOut]:
        rows = list(waiting_for_a_person(self.actor.shop, now).filter(kind__in=KINDS)[:SHOWN])
        mailed = access.quotes(self.actor).filter(pk__in=[row.subject_id for row in rows]).select_related("customer")
        quotes = {quote.pk: quote for quote in mailed} if rows else {}
        return [trouble_answer(row, quotes, self.actor.shop, now) for row in rows]


class Find(Endpoint):
    """Find by a name, a plate, the end of a VIN, a quote number or a part number."""

    responses = {"get": list_of(FoundOut)}
    permissions = {"get": EVERYONE}
    query_parameters = {"q": "what was typed or scanned"}

    def get(self, request: Request, slug: str) -> Response:
        """Find customers, vehicles, quotes, kits, parts, jobs and outside work."""
        return Response({"items": search.find(self.actor, request.query_params.get("q", ""))})
