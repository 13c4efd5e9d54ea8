"""Shapes of the requests about what is charged only if it happens."""

from decimal import Decimal
from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure

MOST_TIMES = 99
BECAUSE = "Of a part with a price of its own: the reason. Only we read it."


class ContingencyIn(s.Serializer[Any]):
    """Work has a `skill`, a part its id; anything else has a price and a tax class."""

    event = s.CharField(max_length=200, help_text="The event that has to happen, as the customer reads it.")
    cap = s.IntegerField(min_value=1, max_value=MOST_TIMES, help_text="The most times that it is charged.")
    title = s.CharField(
        max_length=200,
        required=False,
        help_text="The work that is then done, or the part that is fitted; for a part its own title.",
    )
    quantity = Figure(decimals=4, default=Decimal(1), help_text="Of one time: hours of work, pieces of a part.")
    skill = s.CharField(max_length=40, required=False, help_text="Of work: a skill of the price rules.")
    part = s.UUIDField(required=False)
    unit_price = Figure(decimals=4, required=False)
    because = s.CharField(max_length=200, required=False, help_text=BECAUSE)
    tax_class = s.CharField(max_length=20, required=False)


class ContingencyChange(s.Serializer[Any]):
    """A line that was charged in any case needs both `event` and `cap`."""

    event = s.CharField(
        max_length=200, required=False, help_text="The event that has to happen, as the customer reads it."
    )
    cap = s.IntegerField(
        min_value=1, max_value=MOST_TIMES, required=False, help_text="The most times that it is charged."
    )
    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, required=False, help_text="Of one time: hours of work, pieces of a part.")
    skill = s.CharField(max_length=40, required=False, help_text="Of work: a skill of the price rules.")
    unit_price = Figure(
        decimals=4, required=False, allow_null=True, help_text="Null for a part goes back to the price worked out."
    )
    because = s.CharField(max_length=200, required=False, help_text=BECAUSE)
    tax_class = s.CharField(max_length=20, required=False)
