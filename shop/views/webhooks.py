from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.webhooks import NewWebhookOut, WebhookMessageOut, WebhookMessagesOut, WebhookOut, WebhooksOut
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.models import Webhook as WebhookRow
from shop.presenters.webhooks import message_answer, webhook_answer
from shop.serializers.webhooks import NewWebhookIn, WebhookAddressIn, WebhookSwitchIn
from shop.services import webhooks


class Webhooks(Endpoint):
    """The addresses of other programs that are told of events. The secret that signs messages is shown once."""

    request_bodies = {"post": NewWebhookIn}
    responses = {"get": WebhooksOut, "post": {201: NewWebhookOut}}
    permissions = {"get": access.OFFICE, "post": access.OFFICE}
    needs_password = "webhook-needs-password"

    def get(self, request: Request, slug: str) -> Response:
        """List the webhooks that have not been ended."""
        counts, now = access.webhook_counts(self.actor), timezone.now()
        rows = access.webhooks(self.actor)
        return Response(WebhooksOut(items=[webhook_answer(row, counts, now) for row in rows]))

    def prepare(self, request: Request, *args: Any, **kw: Any) -> None:
        """Asks the name server before the transaction."""
        webhooks.check_address(self.body(request)["url"])

    def post(self, request: Request, slug: str) -> Response:
        """Make a webhook."""
        row, secret = webhooks.make_webhook(actor=self.actor, now=timezone.now(), **self.body(request))
        return _with_secret(self.actor, row, secret)


class Webhook(Endpoint):
    """A webhook. DELETE ends it for good: nothing more is sent there."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """End a webhook."""
        webhooks.end_webhook(actor=self.actor, webhook=access.webhook(self.actor, id), now=timezone.now())
        return Response(status=204)


class WebhookAddress(Endpoint):
    """Another address of a webhook: it is ended, and one with the same secret takes its place and what waits."""

    request_bodies = {"post": WebhookAddressIn}
    responses = {"post": {201: WebhookOut}}
    permissions = {"post": access.OFFICE}
    needs_password = "webhook-needs-password"

    def prepare(self, request: Request, *args: Any, **kw: Any) -> None:
        """Asks the name server about it, before the transaction."""
        webhooks.check_address(self.body(request)["url"])

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Change the address of a webhook."""
        row, now = access.webhook(self.actor, id), timezone.now()
        row = webhooks.move_webhook(actor=self.actor, webhook=row, url=self.body(request)["url"], now=now)
        return Response(webhook_answer(row, access.webhook_counts(self.actor), now), status=201)


class WebhookState(Endpoint):
    """Whether a webhook is on. Messages that wait when it is switched off are not sent any more."""

    request_bodies = {"put": WebhookSwitchIn}
    responses = {"put": WebhookOut}
    permissions = {"put": access.OFFICE}

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Switch a webhook on or off."""
        row, now = access.webhook(self.actor, id), timezone.now()
        row = webhooks.switch_webhook(actor=self.actor, webhook=row, on=self.body(request)["on"], now=now)
        return Response(webhook_answer(row, access.webhook_counts(self.actor), now))


class WebhookSecret(Endpoint):
    """The secret of a webhook. The one that it replaces signs beside it for 24 hours."""

    responses = {"post": {201: NewWebhookOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Renew the secret of a webhook."""
        row = access.webhook(self.actor, id)
        row, secret = webhooks.renew_secret(actor=self.actor, webhook=row, now=timezone.now())
        return _with_secret(self.actor, row, secret)


class WebhookTrial(Endpoint):
    """A message of the event "trial", by which a manager sees whether the program takes messages."""

    responses = {"post": {201: WebhookMessageOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Send a trial message."""
        row = access.webhook(self.actor, id)
        message = webhooks.send_trial(actor=self.actor, webhook=row, now=timezone.now())
        return Response(message_answer(message), status=201)


class WebhookMessages(Endpoint):
    """The newest 50 messages of a webhook."""

    responses = {"get": WebhookMessagesOut}
    permissions = {"get": access.OFFICE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the messages of a webhook, the newest first."""
        rows = access.webhook_messages(access.webhook(self.actor, id))
        return Response(WebhookMessagesOut(items=[message_answer(row) for row in rows]))


class WebhookMessageAgain(Endpoint):
    """Sending a message of a webhook again, under the same id."""

    responses = {"post": {201: WebhookMessageOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str, id: UUID, message: UUID) -> Response:
        """Send a message again."""
        row = access.webhook_message(access.webhook(self.actor, id), message)
        return Response(
            message_answer(webhooks.send_again(actor=self.actor, message=row, now=timezone.now())), status=201
        )


def _with_secret(actor: access.Actor, row: WebhookRow, secret: str) -> Response:
    webhook = webhook_answer(row, access.webhook_counts(actor), timezone.now())
    stored = NewWebhookOut(webhook=webhook, secret=None)
    return SecretAnswer(NewWebhookOut(webhook=webhook, secret=secret), stored=stored)
