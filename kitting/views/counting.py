from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.parsers import JSONParser
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.counting import EventsOut, ResultOut, ResultsOut
from kitting.presenters.counting import events_after
from kitting.serializers.counting import BatchIn
from kitting.services import counting
from shop import access as shop_access
from shop.api.endpoint import Endpoint
from shop.api.params import parse_whole
from shop.api.parsers import read_json
from shop.api.query_parameters import MOST_ASKED, whole
from shop.errors import RequestError

MOST_BYTES = 256 * 1024
MOST_EVENTS = 200
MOST_PULLED = 500


class BoundedJSON(JSONParser):
    """Refuses a body past the bound before it is read into rows."""

    def parse(self, stream: Any, media_type: Any = None, parser_context: Any = None) -> Any:
        body = stream.read(MOST_BYTES + 1)
        if len(body) > MOST_BYTES:
            raise RequestError(413, "batch-too-large", bytes=MOST_BYTES // 1024, events=MOST_EVENTS)
        return read_json(body)  # each event is looked at by itself


class CountEvents(Endpoint):
    """The list's log: pull what came after a seq, send what phones have counted.

    A repeat is a `duplicate`, by the events' own ids: no Idempotency-Key is needed.
    """

    request_bodies = {"post": BatchIn}
    responses = {"get": EventsOut, "post": ResultsOut}
    permissions = {"get": shop_access.EVERYONE, "post": shop_access.EVERYONE}
    query_parameters = {
        "after": whole("the last seq the phone has, 0 at first", 0, MOST_ASKED),
        "limit": whole("events at most; up to 500 come", 1, MOST_ASKED),
    }
    delivers = frozenset({"post"})
    idempotency_key = False
    parser_classes = [BoundedJSON]

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Pull what came after a place in the log."""
        after = parse_whole(request.query_params.get("after", "0"), "/after", 0)
        limit = parse_whole(request.query_params.get("limit", str(MOST_PULLED)), "/limit", 1)
        pull_list = access.pull_list(self.actor, id)
        return Response(events_after(self.actor, pull_list, after, min(limit, MOST_PULLED)))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Send what phones have counted."""
        pull_list = access.pull_list(self.actor, id)
        events = self.body(request)["events"]
        if len(events) > MOST_EVENTS:
            raise RequestError(413, "batch-too-large", bytes=MOST_BYTES // 1024, events=MOST_EVENTS)
        results = counting.store_batch(actor=self.actor, pull_list=pull_list, events=events, now=timezone.now())
        answers = [
            ResultOut(id=result.id, status=result.status, seq=result.seq, problem=result.problem) for result in results
        ]
        return Response(ResultsOut(results=answers))
