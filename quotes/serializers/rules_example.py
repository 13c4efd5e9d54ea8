from rest_framework import serializers as s

from shop.serializers.rules import RulesChangeIn


class RulesExampleIn(RulesChangeIn):
    """A change of the price rules, and the quote to show it on."""

    quote = s.UUIDField(required=False, allow_null=True, help_text="The example; the newest quote if left out.")
