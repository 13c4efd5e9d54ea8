from typing import Any

from rest_framework import serializers as s


class CloseIn(s.Serializer[Any]):
    """`seq` is the last place in the log that was on the screen."""

    seq = s.IntegerField(min_value=0, help_text="The last place in the log that was on the screen.")
