from typing import Any
from zoneinfo import available_timezones

from rest_framework import serializers as s

from shop.language_tags import is_language_tag
from shop.rule_presets import PRESETS
from shop.serializers.currency import CurrencyCode
from shop.words import say


class OpeningIn(s.Serializer[Any]):
    """The first shop, its first manager, and the preset of price rules that it begins with."""

    code = s.CharField(max_length=40, help_text="The code that the server printed when it started.")
    name = s.CharField(max_length=120, help_text="The name of the shop.")
    address = s.CharField(max_length=200, allow_blank=True, default="", help_text="Customers see it on every quote.")
    phone = s.CharField(max_length=40, allow_blank=True, default="", help_text="Customers see it on every quote.")
    email = s.EmailField(allow_blank=True, default="", help_text="Customers see it on every quote.")
    registration = s.CharField(
        max_length=120, allow_blank=True, default="", help_text="The name of the register and the number in it."
    )
    currency = CurrencyCode(help_text="Three letters (ISO 4217). It never changes.")
    zone = s.CharField(max_length=64, help_text="The time zone by its IANA name.")
    language = s.CharField(max_length=12, default="en-GB", help_text="The language of the shop, as a tag of BCP 47.")
    manager_name = s.CharField(max_length=120, help_text="The name of the first manager.")
    manager_email = s.EmailField(help_text="The e-mail with which the first manager signs in.")
    password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password of the first manager.")
    password_again = s.CharField(trim_whitespace=False, max_length=256, help_text="The same password again.")
    preset = s.ChoiceField(choices=list(PRESETS), help_text="The price rules that the shop begins with.")

    def validate_zone(self, value: str) -> str:
        if value not in available_timezones():
            raise s.ValidationError(say("field.zone"))
        return value

    def validate_language(self, value: str) -> str:
        if not is_language_tag.regex.match(value):  # type: ignore[union-attr]
            raise s.ValidationError(say("field.language"))
        return value
