from typing import Any

from rest_framework import serializers as s

from shop.calc.targets import LONGEST
from shop.models.webhooks import CHOSEN_EVENTS


class NewWebhookIn(s.Serializer[Any]):
    """A webhook of another program."""

    title = s.CharField(max_length=80, help_text="The name of the program that is told.")
    url = s.CharField(max_length=LONGEST, help_text="The address to which messages are posted, with https://.")
    events = s.ListField(
        child=s.ChoiceField(choices=[(event.value, event.label) for event in CHOSEN_EVENTS]),
        allow_empty=False,
        max_length=len(CHOSEN_EVENTS),
        help_text="The events of which it is told.",
    )


class WebhookAddressIn(s.Serializer[Any]):
    """Another address of a webhook."""

    url = s.CharField(max_length=LONGEST, help_text="The address to which messages are posted, with https://.")


class WebhookSwitchIn(s.Serializer[Any]):
    """Whether a webhook is on."""

    on = s.BooleanField(help_text="Whether messages are sent.")
