from typing import Any

from rest_framework import serializers as s

MOST_LINES = 1_000


class HandCountedLineIn(s.Serializer[Any]):
    """A part number in its place with what was counted; each text is read as the cell of a kit's file."""

    carton = s.CharField(max_length=80, allow_blank=True, default="")
    bag = s.CharField(max_length=80, allow_blank=True, default="")
    number = s.CharField(max_length=60, help_text="The part number.")
    quantity = s.CharField(max_length=20, help_text="Such as 4 or 1.5 m; 0 where there is none.")


class FirstCountIn(s.Serializer[Any]):
    """A count by hand of a kit that has no list."""

    lines = HandCountedLineIn(  # type: ignore[call-arg]
        many=True, allow_empty=False, max_length=MOST_LINES, help_text="The lines that were counted."
    )
    whole = s.BooleanField(help_text="True for a count of the whole kit, false for lines that were asked for.")
    again = s.BooleanField(default=False, help_text="True starts again: earlier counts no longer matter.")
