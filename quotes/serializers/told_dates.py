from typing import Any

from rest_framework import serializers as s

from quotes.models.told_dates import DateHalf, DateMeans


class ToldDateIn(s.Serializer[Any]):
    """The sentence about a job's date that a person tells its customer."""

    ready_on = s.DateField(allow_null=True, default=None, help_text="Null for the sentence that there is no date.")
    half = s.ChoiceField(DateHalf.choices, default=DateHalf.AFTERNOON, help_text="The half of that day.")
    words = s.CharField(max_length=400, help_text="The sentence as the customer reads it.")
    means = s.ChoiceField(DateMeans.choices, help_text="By e-mail, or by the person on the telephone.")
