from typing import Any

from rest_framework import serializers as s


class NewCalendarFeedIn(s.Serializer[Any]):
    """An address for a calendar."""

    title = s.CharField(max_length=80, help_text="The name of the calendar that will read it.")
