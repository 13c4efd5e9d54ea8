from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.presenters.quote import quote_answer
from quotes.serializers import requests
from quotes.services import questions
from quotes.views.quotes import COUNTER
from shop.api.endpoint import Endpoint


class Reply(Endpoint):
    """The reply to a customer's question, which then stands on the page of the link."""

    request_bodies = {"post": requests.ReplyIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, question: UUID) -> Response:
        """Reply to a customer's question."""
        quote, now = access.quote(self.actor, id), timezone.now()
        row, text = access.question(self.actor, quote, question), self.body(request)["reply"]
        questions.reply(actor=self.actor, quote=quote, question=row, text=text, now=now)
        return Response(quote_answer(access.current(quote), now), status=201)
