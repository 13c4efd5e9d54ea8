from rest_framework import serializers as s

from shop.serializers.opening_hours import ClosedDaysIn, HolidaysIn, OpeningHoursIn


class HoursExampleIn(OpeningHoursIn):
    """Opening hours from a day on, and the quote to show them on."""

    quote = s.UUIDField(required=False, allow_null=True, help_text="The example; the newest quote if left out.")


class ClosedDaysExampleIn(ClosedDaysIn):
    """Closed days, and the quote to show them on."""

    quote = s.UUIDField(required=False, allow_null=True, help_text="The example; the newest quote if left out.")


class HolidaysExampleIn(HolidaysIn):
    """Holidays, and the quote to show them on."""

    quote = s.UUIDField(required=False, allow_null=True, help_text="The example; the newest quote if left out.")
