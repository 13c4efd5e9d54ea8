from typing import Any
from uuid import UUID

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access, models
from quotes.answers.links import NewLinkOut
from quotes.answers.quotes import QuoteOut, SentOut
from quotes.documents import quote_pdf, receipt_paper
from quotes.documents.letters import ready_message
from quotes.documents.ubl_quotation import quotation_file
from quotes.models import Quote, Revision
from quotes.presenters.customer_page import preview_page
from quotes.presenters.quote import new_link, quote_answer
from quotes.presenters.stops import stops_refused
from quotes.queries import frozen
from quotes.serializers import requests
from quotes.services import links, sending
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.api.public_address import address
from shop.api.renderers import PageRenderer, PDFRenderer, XMLRenderer
from shop.documents.context import context
from shop.documents.ubl import xml_response
from shop.errors import RequestError
from shop.words.languages import speaking


def with_address(quote: Quote, link: models.Link, url: str) -> NewLinkOut:
    """The link with its address, and the ready message that holds it."""
    newest = access.newest_sent(quote)
    assert newest is not None, "only what was sent has a link"
    with speaking(*quote.languages):
        message = ready_message(frozen.read(newest), quote.shop, recipient=link.recipient, address=url)
    return new_link(link, url, message)


class Send(Endpoint):
    """Freeze the draft that was seen and make the recipient's link. The link's address is in the first answer only."""

    request_bodies = {"post": requests.SendIn}
    responses = {"post": {201: SentOut}}
    permissions = {"post": COUNTER}

    def prepare(self, request: Request, *args: Any, **kw: Any) -> None:
        confirmed = self.body(request)["below_floor"]
        with stops_refused(self.actor.shop.exponent):
            self.ready = sending.prepare(access.current(access.quote(self.actor, kw["id"])), below_floor=confirmed)

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Send a draft."""
        quote, body = access.quote(self.actor, id), self.body(request)
        _, link, path = sending.send(
            actor=self.actor,
            quote=quote,
            seen=body["version"],
            gross=body.get("gross"),
            recipient=body["recipient"],
            ready=self.ready,
        )
        fresh = quote_answer(access.current(quote), timezone.now())
        return SecretAnswer(
            SentOut(fresh, with_address(quote, link, address(request, path))),
            stored=SentOut(fresh, new_link(link)),
        )


class Withdraw(Endpoint):
    """Withdraw a sent version, as it was seen."""

    request_bodies = {"post": requests.WithdrawIn}
    responses = {"post": QuoteOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Withdraw a sent version."""
        quote, body = access.quote(self.actor, id), self.body(request)
        return answer(
            sending.withdraw(actor=self.actor, quote=quote, revision_number=body["revision"], digest=body["digest"])
        )


class Links(Endpoint):
    """One more link, for another recipient. Its address is in the first answer only."""

    request_bodies = {"post": requests.RecipientIn}
    responses = {"post": {201: NewLinkOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Make a link for another recipient."""
        quote, body = access.quote(self.actor, id), self.body(request)
        link, path = links.link_to_sent(actor=self.actor, quote=quote, recipient=body["recipient"])
        return SecretAnswer(with_address(quote, link, address(request, path)), stored=new_link(link))


class Link(Endpoint):
    """Cancel a link."""

    responses = {"delete": {204: None}}
    permissions = {"delete": COUNTER}

    def delete(self, request: Request, slug: str, id: UUID, link: UUID) -> Response:
        """Cancel a link."""
        quote = access.quote(self.actor, id)
        links.revoke_link(actor=self.actor, quote=quote, link=access.link(self.actor, quote, link))
        return Response(status=204)


class Paper(Endpoint):
    """The PDF of the newest sent version, byte for byte as it was frozen."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    renderer_classes = [PDFRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read the paper of the newest sent version."""
        newest: Revision | None = access.newest_sent(access.quote(self.actor, id))
        if newest is None:
            raise RequestError(404, "no-paper")
        return quote_pdf.response(newest)


class QuotationFile(Endpoint):
    """The newest sent version for another program, as a Quotation of UBL 2.4. The figures are those of its text."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    renderer_classes = [XMLRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read the newest sent version as UBL."""
        newest: Revision | None = access.newest_sent(access.quote(self.actor, id))
        if newest is None:
            raise RequestError(404, "no-paper")
        with speaking(*newest.quote.languages):
            body = quotation_file(frozen.read(newest), id=str(newest.pk))
        return xml_response(body, f"Q-{newest.quote.number}-{newest.number}.xml")


class Receipt(Endpoint):
    """The PDF of the receipt of an acceptance, to print or hand over."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    renderer_classes = [PDFRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read the paper of an acceptance."""
        decision = access.acceptance(access.quote(self.actor, id))
        if decision is None:
            raise RequestError(409, "no-receipt")
        answer = HttpResponse(receipt_paper.receipt_paper(decision), content_type="application/pdf")
        answer["Content-Disposition"] = f'inline; filename="{receipt_paper.file_name(decision)}"'
        answer["Cache-Control"] = "no-store"
        return answer


class AsCustomer(Endpoint):
    """The customer's page, of a draft as it would be sent now. It cannot be answered, and nothing is written."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    renderer_classes = [PageRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """See a quote as its customer."""
        revision, now = access.current(access.quote(self.actor, id)), timezone.now()
        draft = revision.state == Revision.State.DRAFT
        with stops_refused(self.actor.shop.exponent), speaking(*revision.quote.languages):
            document = frozen.opened(sending.freeze(revision, now)[1]) if draft else frozen.read(revision)
        with speaking(*revision.quote.languages):
            page, preview = preview_page(document, revision, now)
            return HttpResponse(render_to_string("quotes/page.html", context(*page, preview)))
