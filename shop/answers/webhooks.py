"""The webhooks of a shop, and the messages that went to them."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.webhooks import MessageReason, OffReason, WebhookEvent, WebhookMessageState


class WebhookOut(Answer, frozen=True):
    """A webhook that has not been ended. Its secret is shown once, when it is made."""

    id: UUID
    title: Annotated[str, Meta(description="The name of the program that is told.")]
    url: Annotated[str, Meta(description="The address to which messages are posted.")]
    events: Annotated[list[WebhookEvent], Meta(description="The events of which it is told.")]
    by: Annotated[str, Meta(description="The name of the manager who made it.")]
    made_at: Annotated[Instant, Meta(description="The time at which it was made.")]
    off: Annotated[OffReason | None, Meta(description="The reason why it is switched off; null while it is on.")]
    off_at: Annotated[Instant | None, Meta(description="The time at which it was switched off; null while it is on.")]
    old_secret_until: Annotated[
        Instant | None, Meta(description="The time until which a replaced secret signs too; null if none does.")
    ]
    waiting: Annotated[int, Meta(description="The number of messages that wait for a try.")]
    failed: Annotated[int, Meta(description="The number of messages whose last try failed.")]


class WebhooksOut(Answer, frozen=True):
    """The webhooks that have not been ended, newest first."""

    items: list[WebhookOut]


class NewWebhookOut(Answer, frozen=True):
    """A webhook whose secret was just made."""

    webhook: Annotated[WebhookOut, Meta(description="The webhook, as the list shows it.")]
    secret: Annotated[str | None, Meta(description="The secret; null in a repeated answer.")]


class WebhookMessageOut(Answer, frozen=True):
    """A message of a webhook."""

    id: UUID
    event: Annotated[WebhookEvent, Meta(description="The event that it tells.")]
    number: Annotated[str, Meta(description="The number of the quote or job; empty where there is none.")]
    happened_at: Annotated[Instant, Meta(description="The time of the event.")]
    state: Annotated[WebhookMessageState, Meta(description="Whether it waits, is under way, arrived or failed.")]
    tries: Annotated[int, Meta(description="The number of tries.")]
    http_status: Annotated[int | None, Meta(description="The HTTP status of the last answer; null if there was none.")]
    reason: Annotated[
        MessageReason | None, Meta(description="The reason why it has not arrived; null if it has, or was not tried.")
    ]
    next_try_at: Annotated[Instant | None, Meta(description="The time of the next try; null if there is none.")]
    done_at: Annotated[Instant | None, Meta(description="The time at which the receiver took it; null if it has not.")]


class WebhookMessagesOut(Answer, frozen=True):
    """The newest messages of a webhook, the newest first."""

    items: list[WebhookMessageOut]
