"""The request about what happened on a job."""

from typing import Any

from rest_framework import serializers as s


class OccurrenceIn(s.Serializer[Any]):
    """A record that an agreed line happened."""

    line = s.UUIDField(help_text="The id of the line that was agreed.")
    count = s.IntegerField(min_value=1, max_value=99, default=1, help_text="The number of times, also beyond the cap.")
    note = s.CharField(max_length=300, allow_blank=True, default="", help_text="A note for colleagues.")


class PhotographIn(s.Serializer[Any]):
    """A photograph: a JPEG of at most 6 MiB and 24 megapixels."""

    file = s.FileField(max_length=200, help_text="The JPEG itself.")


class ShownIn(s.Serializer[Any]):
    """Whether the customer sees a photograph on the link."""

    shown = s.BooleanField(help_text="True shows it, false takes it off.")
