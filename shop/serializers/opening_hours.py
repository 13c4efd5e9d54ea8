from typing import Any

from rest_framework import serializers as s


class OpenSpanIn(s.Serializer[Any]):
    """A stretch of a day in which the shop is open."""

    opens = s.CharField(max_length=5, help_text="The time from which it is open, such as 08:00.")
    closes = s.CharField(max_length=5, help_text="The time at which it closes, such as 17:30; 24:00 ends the day.")


class OpenDayIn(s.Serializer[Any]):
    """A day of the week."""

    day = s.ChoiceField(choices=["mon", "tue", "wed", "thu", "fri", "sat", "sun"], help_text="The day of the week.")
    spans = OpenSpanIn(many=True, allow_empty=True, help_text="The stretches in which the shop is open.")


class OpeningHoursIn(s.Serializer[Any]):
    """The opening hours of the week from a day on. A day that is not listed is closed."""

    valid_from = s.DateField(
        required=False, allow_null=True, default=None, help_text="The day from which they apply; null for today."
    )
    week = OpenDayIn(many=True, help_text="The days on which the shop opens.")
    seen = OpenDayIn(
        many=True,
        required=False,
        help_text="The hours that were changed, as they were read. If that day has others by now, nothing is saved.",
    )


class ClosedDaysIn(s.Serializer[Any]):
    """Days on which the shop is closed, from the first to the last."""

    first = s.DateField(help_text="The first closed day.")
    last = s.DateField(required=False, allow_null=True, default=None, help_text="The last one; null for one day.")
    reason = s.CharField(max_length=120, allow_blank=True, default="", help_text="The reason, such as a holiday.")


class HolidayIn(s.Serializer[Any]):
    """A day on which the shop is closed."""

    date = s.DateField(help_text="The day.")
    reason = s.CharField(max_length=120, allow_blank=True, default="", help_text="The name of the holiday.")


class HolidaysIn(s.Serializer[Any]):
    """The holidays on which the shop is closed."""

    days = HolidayIn(  # type: ignore[call-arg]
        many=True, allow_empty=False, max_length=60, help_text="A day that is closed already stays as it is."
    )
