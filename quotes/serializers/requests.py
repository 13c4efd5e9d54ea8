"""Shapes of the requests about a quote."""

from decimal import Decimal
from typing import Any

from rest_framework import serializers as s

from quotes.models import Line
from shop.serializers.figure import Figure


class QuoteIn(s.Serializer[Any]):
    kits = s.ListField(child=s.UUIDField(), max_length=26, default=list)
    parts = s.ListField(child=s.UUIDField(), max_length=26, default=list, help_text="loose parts, one of each")
    customer = s.UUIDField(allow_null=True, default=None)
    vehicle = s.UUIDField(allow_null=True, default=None)


class QuoteChange(s.Serializer[Any]):
    """`rules`: the number of the price rules in force, or of those that they replaced on this draft.

    `rules_declined`: the number of newer rules that this draft need not offer again.
    """

    customer = s.UUIDField(allow_null=True, required=False)
    vehicle = s.UUIDField(allow_null=True, required=False)
    note = s.CharField(max_length=200, allow_blank=True, required=False)
    condition = s.CharField(max_length=20, required=False)
    here = s.BooleanField(required=False)
    here_from = s.DateField(allow_null=True, required=False)
    rules = s.IntegerField(min_value=1, required=False)
    rules_declined = s.IntegerField(min_value=1, allow_null=True, required=False)


class LineIn(s.Serializer[Any]):
    kind = s.ChoiceField([Line.Kind.KIT, Line.Kind.PART, Line.Kind.TEXT])
    kit = s.UUIDField(required=False)
    part = s.UUIDField(required=False)
    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, default=Decimal(1))
    unit_price = Figure(decimals=4, required=False)
    tax_class = s.CharField(max_length=20, required=False)


class LineChange(s.Serializer[Any]):
    """Of a kit only `fitted_before`: the workshop has fitted it before it was quoted here."""

    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, required=False)
    unit_price = Figure(decimals=4, required=False)
    tax_class = s.CharField(max_length=20, required=False)
    fitted_before = s.BooleanField(required=False)


class OverrideIn(s.Serializer[Any]):
    value = Figure(decimals=4)
    because = s.CharField(max_length=200)


class DiscountIn(s.Serializer[Any]):
    """Either `percent` or `amount`."""

    percent = Figure(decimals=2, allow_null=True, default=None)
    amount = Figure(decimals=4, allow_null=True, default=None)
    because = s.CharField(max_length=200)


class SendIn(s.Serializer[Any]):
    """`gross` is the total that was seen: prices may have moved where the draft has not.

    `below_floor` says that the quote is sent although its margin is below the floor of the price rules.
    """

    version = s.IntegerField(min_value=1)
    gross = s.CharField(max_length=20, required=False)
    recipient = s.CharField(max_length=120)
    below_floor = s.BooleanField(default=False)


class RecipientIn(s.Serializer[Any]):
    recipient = s.CharField(max_length=120)


class WithdrawIn(s.Serializer[Any]):
    revision = s.IntegerField(min_value=1)
    digest = s.CharField(max_length=64)


class Nothing(s.Serializer[Any]):
    pass
