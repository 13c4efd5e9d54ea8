from typing import Any

from rest_framework import serializers as s

from shop.models.api_tokens import TokenArea


class NewTokenIn(s.Serializer[Any]):
    """A token of another program."""

    title = s.CharField(max_length=80, help_text="The name of the program that will use it.")
    member = s.UUIDField(help_text="The member in whose name the program acts, with that member's role.")
    areas = s.ListField(
        child=s.ChoiceField(choices=TokenArea.choices),
        allow_empty=False,
        max_length=len(TokenArea),
        help_text="The parts of the interface that it opens.",
    )
    may_write = s.BooleanField(default=False, help_text="Whether it may change something; else it only reads.")
    expires_on = s.DateField(help_text="The last day on which it works, at most a year away.")
