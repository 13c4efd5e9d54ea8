"""Requests about the money of a job."""

from typing import Any

from rest_framework import serializers as s

from shop.models import Payment
from shop.serializers.figure import Figure
from shop.serializers.words import sentence

BELOW_ZERO = {"min_value": sentence("field.payment_amount")}  # the words for 0 too


class PaymentIn(s.Serializer[Any]):
    """A payment of the customer, or money that the workshop pays back."""

    amount = Figure(decimals=3, error_messages=BELOW_ZERO, help_text="Above 0, also for money paid back.")
    received_on = s.DateField(help_text="The day on which the money changed hands.")
    means = s.ChoiceField(choices=Payment.Means.choices, help_text="The means of payment.")
    reference = s.CharField(
        max_length=80, allow_blank=True, default="", help_text="The number of a slip or transfer; empty without one."
    )
    back = s.BooleanField(default=False, help_text="The workshop pays the amount back.")
    reason = s.CharField(
        max_length=200,
        allow_blank=True,
        default="",
        help_text="The reason for paying it back; empty for money received.",
    )


class CoreIn(s.Serializer[Any]):
    """A core deposit that the customer gets back, because the old part came back."""

    title = s.CharField(max_length=200, help_text="The old part.")
    amount = Figure(decimals=3, error_messages=BELOW_ZERO, help_text="With tax, above 0.")
    returned_on = s.DateField(help_text="The day on which the old part came back.")


class ClosingIn(s.Serializer[Any]):
    """The sum that was seen. The job is closed at exactly this sum, or not at all."""

    due = s.CharField(max_length=24, help_text="The sum to pay, in the account's words.")


class ReversalIn(s.Serializer[Any]):
    """The reason for cancelling a row that was recorded by mistake."""

    reason = s.CharField(max_length=200, help_text="Its fault.")
