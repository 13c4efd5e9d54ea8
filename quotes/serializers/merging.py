from typing import Any

from rest_framework import serializers as s


class CustomerMergeIn(s.Serializer[Any]):
    """The record that goes, and the versions of both that were on the screen."""

    other = s.UUIDField(help_text="The id of the record that goes.")
    version = s.IntegerField(min_value=1, max_value=2_147_483_647, help_text="Of the record that stays.")
    other_version = s.IntegerField(min_value=1, max_value=2_147_483_647, help_text="Of the record that goes.")
