from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.part_list import PartListOut
from quotes.answers.quotes import QuoteOut
from quotes.calc.part_list import MOST_LINES, text_lines
from quotes.presenters.part_list import part_list_answer, wrong_rows
from quotes.queries.part_list import PartList, find_parts
from quotes.serializers import requests
from quotes.services.part_lists import add_parts
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint
from shop.errors import RequestError, field_error


class PartListReading(Endpoint):
    """Shows how a pasted list of part numbers and quantities is understood, and adds nothing."""

    request_bodies = {"post": requests.PartListIn}
    responses = {"post": PartListOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Read a list of parts."""
        access.quote(self.actor, id)
        part_list = read_list(self.actor, self.body(request)["text"])
        return Response(part_list_answer(part_list, self.actor.shop, timezone.now()))


class PartListLines(Endpoint):
    """Adds every line of a pasted list of parts, as one change; nothing where a line cannot be read."""

    request_bodies = {"post": requests.PartListIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add the parts of a list."""
        quote = access.quote(self.actor, id)
        part_list = read_list(self.actor, self.body(request)["text"])
        if part_list.unknown_number:
            raise field_error("/text", "part_unknown", number=part_list.unknown_number)
        if part_list.problems:
            raise RequestError(409, "part-list-unread", rows=wrong_rows(part_list))
        if not part_list.understood:
            raise field_error("/text", "no_parts_in_list")
        parts = [(part_list.parts[line.part], line.quantity) for line in part_list.understood if line.part]
        return answer(add_parts(actor=self.actor, quote=quote, parts=parts), 201)


def read_list(actor: Any, text: str) -> PartList:
    """The list as it is understood. Refuses one that is too long."""
    lines = text_lines(text)
    if len(lines) > MOST_LINES:
        raise field_error("/text", "list_too_long", most=MOST_LINES)
    return find_parts(actor.shop, lines)
