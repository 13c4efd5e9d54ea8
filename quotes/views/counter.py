from datetime import timedelta

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.rows import CounterOut
from quotes.answers.search import FoundOut
from quotes.models import Revision
from quotes.presenters import search
from quotes.presenters.quote import quote_row
from quotes.views.quotes import COUNTER
from shop.access import EVERYONE
from shop.api.components import list_of
from shop.api.endpoint import Endpoint

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
        groups = ([quote_row(row, now) for row in rows[:SHOWN]] for rows in (answered, lapsing, drafts))
        return Response(CounterOut(*groups))


class Find(Endpoint):
    """Find by a name, a plate, the end of a VIN, a quote number or a part number."""

    responses = {"get": list_of(FoundOut)}
    permissions = {"get": EVERYONE}
    query_parameters = {"q": "what was typed or scanned"}

    def get(self, request: Request, slug: str) -> Response:
        """Find customers, vehicles, quotes, kits, parts, jobs and outside work."""
        return Response({"items": search.find(self.actor, request.query_params.get("q", ""))})
