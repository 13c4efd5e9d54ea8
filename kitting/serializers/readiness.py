from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

MOST_LINES = 5000


@extend_schema_field({"type": "string", "pattern": "^([01]?[0-9]|2[0-3]):[0-5]?[0-9]$"})
class TimeOfDay(s.TimeField):
    """Hours and minutes of the shop's clock, as in 10:30: no seconds and no zone."""

    def __init__(self, **kw: Any) -> None:
        super().__init__(input_formats=["%H:%M"], **kw)


class DueIn(s.Serializer[Any]):
    """A `day` without `time`: as the shop closes. No day: as the supplier's lead days say."""

    lines = s.ListField(child=s.UUIDField(), min_length=1, max_length=MOST_LINES, help_text="The ids of the lines.")
    day = s.DateField(allow_null=True, help_text="Null: as the supplier's lead days say.")
    time = TimeOfDay(
        allow_null=True,
        required=False,
        default=None,
        help_text="Hours and minutes of the shop's clock, as in 10:30; without them, as the shop closes.",
    )
