from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.answers.spoken import SpokenFormOut
from quotes.calc.answer import AcceptanceError, AnswerForm, place_of
from quotes.models.answers import AnswerWay, DecisionAnswer
from quotes.presenters.quote import quote_answer
from quotes.presenters.spoken import spoken_form, spoken_words
from quotes.queries import frozen
from quotes.serializers import requests
from quotes.services.acceptance import Spoken, accept_revision, decline_revision
from quotes.views.quotes import COUNTER
from shop.api.endpoint import Endpoint
from shop.errors import FieldError, RequestError, field_error
from shop.words.languages import speaking

CODES = {
    "replaced": "answer-replaced",
    "withdrawn": "answer-withdrawn",
    "expired": "answer-expired",
    "answered": "answer-given",
    "moved": "answer-moved",
    "unknown": "answer-unfit",
    "unfit": "answer-unfit",
    "contradicts": "answer-contradicts",
    "job_ended": "answer-job-ended",
    "taken_before": "answer-taken-before",
    "ask": "ask-first",
}


class SpokenAnswer(Endpoint):
    """The text to read out to the customer; record the answer given by phone or at the counter."""

    request_bodies = {"post": requests.SpokenIn}
    responses = {"get": SpokenFormOut, "post": {201: QuoteOut}}
    permissions = {"get": COUNTER, "post": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what is read out to the customer."""
        quote = access.quote(self.actor, id)
        live = access.live(quote)
        if live is None:
            raise RequestError(409, "not-sent")
        with speaking(frozen.read(live)["language"], *quote.languages):
            return Response(spoken_form(live, timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record an answer given by phone or at the counter."""
        quote, body, now = access.quote(self.actor, id), self.body(request), timezone.now()
        _check(body)
        accepts = body["answer"] == DecisionAnswer.ACCEPTED
        said_at = body["said_at"] or now
        spoken = Spoken(self.actor, quote, body["way"], body["phone"].strip(), said_at)
        decide = accept_revision if accepts else decline_revision
        revision = access.sent_revision(quote, body["revision"])
        read_out = frozen.read(revision) if revision else {}
        with refusals(read_out), speaking(read_out.get("language", ""), *quote.languages):
            decide(source=spoken, answer=_form(read_out, body), now=now)
        return Response(quote_answer(access.current(access.quote(self.actor, id)), now), status=201)


def _check(body: dict[str, Any]) -> None:
    if body["way"] == AnswerWay.PHONE and not any(character.isdigit() for character in body["phone"]):
        raise field_error("/phone", "number_called")
    if body["answer"] == DecisionAnswer.ACCEPTED and not body["read_out"]:
        raise field_error("/read_out", "words_read_out")


def _form(document: dict[str, Any], body: dict[str, Any]) -> AnswerForm:
    return AnswerForm(
        revision=body["revision"],
        digest=body["digest"],
        name=body["name"],
        consents=tuple(body["consents"]),
        address="",
        agent="",
        ready=body["ready"],
        ready_later=body["ready_later"],
        price=body["price"],
        words=tuple(spoken_words(document, place_of(document, body["price"]) or 0)) if document else (),
        reason=body["reason"],
    )


@contextmanager
def refusals(document: dict[str, Any]) -> Iterator[None]:
    """The refusal of an answer as a problem: of its fields, or a conflict with what happened in the meantime."""
    try:
        yield
    except AcceptanceError as error:
        if error.code == "moment":
            raise field_error("/said_at", "moment_of_answer") from None
        if error.code == "incomplete":
            raise RequestError(400, "invalid", tuple(_faults(error, document))) from None
        raise RequestError(409, CODES[error.code]) from None


def _faults(error: AcceptanceError, document: dict[str, Any]) -> Iterator[FieldError]:
    if error.name:
        yield FieldError("/name", "full_name")
    if error.price:
        yield FieldError("/price", "which_price")
    for consent in document["rules"]["consents"]:
        if consent["code"] in error.consents:
            yield FieldError("/consents", "consent_required", {"text": consent["text"]})
