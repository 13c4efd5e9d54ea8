from typing import Any

from rest_framework import serializers as s


class ReplacedNumberIn(s.Serializer[Any]):
    number = s.CharField(max_length=60, help_text="That of the part that is replaced, as it is printed.")
    newer = s.CharField(max_length=60, help_text="That of the part that replaces it.")
