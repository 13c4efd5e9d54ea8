from typing import Any

from rest_framework import serializers as s


class JobIn(s.Serializer[Any]):
    """`here`: the vehicle is here already; `here_from`: the day it comes. Neither: a day is proposed."""

    here = s.BooleanField(required=False, help_text="The vehicle is here already.")
    here_from = s.DateField(
        allow_null=True, required=False, help_text="The day the vehicle comes; null: a day is proposed."
    )


class JobMoveIn(s.Serializer[Any]):
    day = s.DateField(help_text="The day it happened; not a day to come.")
    odometer = s.IntegerField(
        allow_null=True, required=False, min_value=0, max_value=9_999_999, help_text="The reading, if it was taken."
    )


class UndoneMoveIn(s.Serializer[Any]):
    because = s.CharField(max_length=200, help_text="The reason for undoing it.")
