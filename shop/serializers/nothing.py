from typing import Any

from rest_framework import serializers as s


class Nothing(s.Serializer[Any]):
    """A body without fields."""
