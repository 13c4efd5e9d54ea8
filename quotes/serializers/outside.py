"""The request for outside work."""

from decimal import Decimal
from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure


class OutsideIn(s.Serializer[Any]):
    """`cost` is without recoverable tax; a `markup` of 0.15 is 15 %. `days` are open days: without them, no date.

    `starts_after` is the code of a step, "" for acceptance; `needed_by` that of the step which waits for the result.
    """

    title = s.CharField(max_length=200)
    firm = s.CharField(max_length=120)
    cost = Figure(decimals=4, help_text="The firm's price, without recoverable tax.")
    markup = Figure(decimals=4, default=Decimal(0), help_text="As a share: 0.15 is 15 %.")
    handling = Figure(decimals=4, default=Decimal(0), help_text="An amount that the workshop adds.")
    tax_class = s.CharField(max_length=20)
    days = s.IntegerField(
        min_value=1, max_value=250, allow_null=True, default=None, help_text="Open days; without them there is no date."
    )
    starts_after = s.CharField(
        max_length=80, allow_blank=True, default="", help_text="The code of the step before it; empty for acceptance."
    )
    needed_by = s.CharField(
        max_length=80,
        allow_blank=True,
        default="",
        help_text="The code of the step that waits for its result, or empty.",
    )
    they_do = s.CharField(
        max_length=300, allow_blank=True, default="", help_text="The firm's work, as the customer reads it."
    )
    reference = s.CharField(max_length=80, allow_blank=True, default="", help_text="The firm's reference of its offer.")
    we_warrant = s.CharField(max_length=200, allow_blank=True, default="", help_text="The workshop's warranty.")
    rounds = s.IntegerField(
        min_value=1,
        max_value=99,
        allow_null=True,
        default=None,
        help_text="Rounds of a loop that are sold: log, correct, again. Null without one.",
    )
    per_round = s.BooleanField(default=False, help_text="The cost is that of one round.")
    they_need = s.CharField(
        max_length=200, allow_blank=True, default="", help_text="The things that the firm needs from the workshop."
    )
    warranty = s.CharField(max_length=200, allow_blank=True, default="", help_text="The firm's warranty.")
