"""Shapes of the requests about choices."""

from typing import Any

from rest_framework import serializers as s

from quotes.models import Choice

MOST_AT_ONCE = 20


class OptionIn(s.Serializer[Any]):
    """The first option of a choice of one is preselected, unless another is."""

    title = s.CharField(max_length=200, help_text="The option, as the customer reads it.")
    preselected = s.BooleanField(default=False, help_text="The workshop proposes it.")
    lines = s.ListField(
        child=s.UUIDField(), max_length=26, default=list, help_text="Lines of the draft that become part of it."
    )


class ChoiceIn(s.Serializer[Any]):
    title = s.CharField(max_length=200, help_text="The subject of the choice, as the customer reads it.")
    take = s.ChoiceField(Choice.Take.choices, help_text="Exactly one option, or any number of them.")
    options = s.ListField(child=OptionIn(), max_length=MOST_AT_ONCE, default=list, help_text="Its options, in order.")


class ChoiceChange(s.Serializer[Any]):
    title = s.CharField(
        max_length=200, required=False, help_text="The subject of the choice, as the customer reads it."
    )
    take = s.ChoiceField(Choice.Take.choices, required=False, help_text="Exactly one option, or any number of them.")
    position = s.IntegerField(min_value=1, max_value=1000, required=False, help_text="Its place among the choices.")


class OptionChange(s.Serializer[Any]):
    title = s.CharField(max_length=200, required=False, help_text="The option, as the customer reads it.")
    preselected = s.BooleanField(required=False, help_text="The workshop proposes it.")
    position = s.IntegerField(min_value=1, max_value=1000, required=False, help_text="Its place among the options.")
