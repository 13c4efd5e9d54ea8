from typing import Any

from rest_framework import serializers as s


class JobIn(s.Serializer[Any]):
    """`here`: the vehicle is here already; `here_from`: the day it comes. Neither: a day is proposed."""

    here = s.BooleanField(required=False, help_text="The vehicle is here already.")
    here_from = s.DateField(
        allow_null=True, required=False, help_text="The day the vehicle comes; null: a day is proposed."
    )
