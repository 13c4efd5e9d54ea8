from rest_framework import serializers as s

from shop.serializers.rates import RateIn


class RateExampleIn(RateIn):
    """An exchange rate from a day on, and the quote to show it on."""

    quote = s.UUIDField(required=False, allow_null=True, help_text="The example; the newest quote if left out.")
