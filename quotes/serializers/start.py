from typing import Any

from rest_framework import serializers as s


class StartStepIn(s.Serializer[Any]):
    """A step of the guided start that is left for later, or taken up again."""

    later = s.BooleanField(help_text="Whether the step is left for later.")
