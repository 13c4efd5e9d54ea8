from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure

MOST_LEAD = 3652  # ten years, in days


class KitIn(s.Serializer[Any]):
    """A kit of which only the selling price and the hours are known, and perhaps its cost before tax, the calendar days
    until it comes, and the vehicle models that it is for, each as it is recorded on a vehicle.
    """

    code = s.CharField(max_length=40, help_text="The kit's code.")
    title = s.CharField(max_length=200)
    price = Figure(decimals=4, help_text="The selling price, with the tax where prices include it.")
    hours = Figure(decimals=2, digits=6)
    cost = Figure(decimals=4, allow_null=True, default=None, help_text="The workshop's cost, before tax.")
    lead_days = s.IntegerField(
        min_value=0,
        max_value=MOST_LEAD,
        allow_null=True,
        default=None,
        help_text="Calendar days from the order until it comes.",
    )
    models = s.ListField(
        child=s.CharField(max_length=60),
        max_length=40,
        default=list,
        help_text="The vehicle models that it is for, each as it is recorded on a vehicle.",
    )
    tax_class = s.CharField(max_length=20, allow_blank=True, default="")


class KitChange(s.Serializer[Any]):
    """`fitted_before`: how often the workshop fitted the kit before it was quoted here. Above 0 it is no first fit."""

    fitted_before = s.IntegerField(
        min_value=0,
        max_value=9999,
        required=False,
        help_text="The number of times the workshop fitted it before it was quoted here; above 0 it is no first fit.",
    )
