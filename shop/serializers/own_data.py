from typing import Any

from rest_framework import serializers as s

SEEN = "Customers see it on every quote."


class OwnDataIn(s.Serializer[Any]):
    """The shop as customers read it from now on."""

    name = s.CharField(max_length=120, help_text="The name of the shop.")
    address = s.CharField(max_length=200, allow_blank=True, help_text=SEEN)
    phone = s.CharField(max_length=40, allow_blank=True, help_text=SEEN)
    email = s.EmailField(allow_blank=True, help_text=SEEN)
    registration = s.CharField(
        max_length=120, allow_blank=True, help_text="The name of the register and the number in it."
    )
    tax_number = s.CharField(max_length=60, allow_blank=True, help_text="The number under which the shop pays taxes.")
