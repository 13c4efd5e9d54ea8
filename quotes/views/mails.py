from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.mails import MailOut, MailsOut
from quotes.presenters.mails import mail_answer, mails_answer
from quotes.serializers import requests
from quotes.services import mails
from quotes.views.quotes import COUNTER
from shop.api.endpoint import Endpoint
from shop.api.public_address import address


class Mails(Endpoint):
    """The e-mails about a quote, and one more with a link to it."""

    request_bodies = {"post": requests.MailIn}
    responses = {"get": MailsOut, "post": {201: MailOut}}
    permissions = {"get": COUNTER, "post": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the e-mails about a quote."""
        quote = access.quote(self.actor, id)
        return Response(mails_answer(quote, access.mails(quote, mails.KINDS), timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Send a link to the quote by e-mail."""
        quote, body, now = access.quote(self.actor, id), self.body(request), timezone.now()
        row = mails.send_link(
            actor=self.actor,
            quote=quote,
            to=body["to"],
            recipient=body["recipient"],
            digest=body["digest"],
            site=address(request, "/").rstrip("/"),
            now=now,
        )
        return Response(mail_answer(row, quote.shop, now), status=201)


class MailDecision(Endpoint):
    """A person's decision about an e-mail that was not sent, or may have been."""

    request_bodies = {"post": requests.MailDecisionIn}
    responses = {"post": MailOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, mail: UUID) -> Response:
        """Decide about an e-mail."""
        quote, body, now = access.quote(self.actor, id), self.body(request), timezone.now()
        row = access.mail(quote, mails.KINDS, mail)
        decided = mails.decide(actor=self.actor, quote=quote, mail=row, decision=body["decision"], now=now)
        return Response(mail_answer(decided, quote.shop, now))
