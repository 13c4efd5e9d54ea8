"""The choices that a draft leaves to the customer."""

from typing import Any
from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.models import Revision
from quotes.serializers import choices as bodies
from quotes.services import choices
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint


def asked_option(revision: Revision, body: dict[str, Any]) -> choices.NewOption:
    return choices.NewOption(body["title"], body["preselected"], access.lines(revision, body["lines"]))


class Choices(Endpoint):
    """Add a choice to the draft, with its options or without them yet."""

    request_bodies = {"post": bodies.ChoiceIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a choice to a draft."""
        quote, body = access.quote(self.actor, id), self.body(request)
        revision = access.current(quote)
        body["options"] = [asked_option(revision, option) for option in body["options"]]
        return answer(choices.add_choice(actor=self.actor, quote=quote, **body), 201)


class ChoiceOne(Endpoint):
    """Rename a choice, move it, or say how many of its options are taken; remove it. Its lines stay on the quote."""

    request_bodies = {"patch": bodies.ChoiceChange}
    responses = {"patch": QuoteOut, "delete": QuoteOut}
    permissions = {"patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def patch(self, request: Request, slug: str, id: UUID, choice: UUID) -> Response:
        """Change a choice."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.choice(access.current(quote), choice)
        changes = self.body(request)
        return answer(choices.change_choice(actor=self.actor, quote=quote, choice=row, seen=seen, changes=changes))

    def delete(self, request: Request, slug: str, id: UUID, choice: UUID) -> Response:
        """Remove a choice."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.choice(access.current(quote), choice)
        return answer(choices.remove_choice(actor=self.actor, quote=quote, choice=row, seen=seen))


class Options(Endpoint):
    """Add an option to a choice, with lines of the draft that become part of it."""

    request_bodies = {"post": bodies.OptionIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, choice: UUID) -> Response:
        """Add an option to a choice."""
        quote, body = access.quote(self.actor, id), self.body(request)
        revision = access.current(quote)
        row = access.choice(revision, choice)
        option = asked_option(revision, body)
        return answer(choices.add_option(actor=self.actor, quote=quote, choice=row, option=option), 201)


class OptionOne(Endpoint):
    """Rename an option, move it or propose it; remove it. Its lines stay on the quote."""

    request_bodies = {"patch": bodies.OptionChange}
    responses = {"patch": QuoteOut, "delete": QuoteOut}
    permissions = {"patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def patch(self, request: Request, slug: str, id: UUID, option: UUID) -> Response:
        """Change an option."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.option(access.current(quote), option)
        changes = self.body(request)
        return answer(choices.change_option(actor=self.actor, quote=quote, option=row, seen=seen, changes=changes))

    def delete(self, request: Request, slug: str, id: UUID, option: UUID) -> Response:
        """Remove an option."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.option(access.current(quote), option)
        return answer(choices.remove_option(actor=self.actor, quote=quote, option=row, seen=seen))
