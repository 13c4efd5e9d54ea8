"""Requests about the photographs of a quote's lines."""

from typing import Any

from rest_framework import serializers as s

from quotes.serializers.occurrences import PhotographIn

CAPTION = "The words under it, which the customer reads too."
SHOWN = "The customer sees it on the link."


class LinePhotographIn(PhotographIn):
    """A photograph of what a line is about: a JPEG of at most 6 MiB and 24 megapixels."""

    caption = s.CharField(max_length=120, help_text=CAPTION)
    seen_by = s.ChoiceField(
        choices=["workshop", "customer"], default="workshop", help_text="The workshop alone, or the customer too."
    )


class LinePhotographChange(s.Serializer[Any]):
    caption = s.CharField(max_length=120, required=False, help_text=CAPTION)
    shown = s.BooleanField(required=False, help_text=SHOWN)
