from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure


class TakenItemIn(s.Serializer[Any]):
    source = s.UUIDField(help_text="The id of the version in which it was agreed.")  # type: ignore[assignment]
    item = s.CharField(max_length=120, help_text="Its key in the text of that version.")


class TakenOffIn(s.Serializer[Any]):
    items = TakenItemIn(many=True, help_text="Everything that the change takes off.")


class UnaskedIn(s.Serializer[Any]):
    """`revision` and `digest` are those of the version that was seen."""

    revision = s.IntegerField(min_value=1, max_value=9_999, help_text="The number of the version.")
    digest = s.CharField(max_length=64, help_text="SHA-256 of the frozen text, in hexadecimal digits.")


class WorkedHoursIn(s.Serializer[Any]):
    """The hours really worked on a step of a called-off job."""

    hours = Figure(decimals=1, digits=5, help_text="At most the agreed ones.")
    reason = s.CharField(max_length=200, help_text="The reason for charging other hours than were agreed.")


class CallOffIn(s.Serializer[Any]):
    because = s.CharField(max_length=200, help_text="The reason for calling the job off.")
