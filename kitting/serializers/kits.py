from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure

MOST_LEAD = 3652  # ten years, in days
MOST_LETTERS = 2000


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
    """A kit as it is typed. Another price, other hours, lead days or labour make its next version."""

    title = s.CharField(max_length=200)
    number = s.CharField(max_length=60, help_text="The number under which the kit is bought.")
    supplier = s.UUIDField(allow_null=True, help_text="The supplier whose offer prices it; null for none.")
    price = Figure(decimals=4, allow_null=True, help_text="The selling price, with the tax where prices include it.")
    hours = Figure(decimals=2, digits=6, allow_null=True)
    lead_days = s.IntegerField(
        min_value=0, max_value=MOST_LEAD, allow_null=True, help_text="Calendar days from the order until it comes."
    )
    fits = s.CharField(
        max_length=MOST_LETTERS,
        allow_blank=True,
        help_text="The vehicles that it is for, as in “model=T35; drive=rear”; empty for any.",
    )
    labour = s.UUIDField(
        required=False,
        allow_null=True,
        help_text="The version of a labour template that is its work; null for none. Left out, it stays.",
    )
    fitted_before = s.IntegerField(
        min_value=0,
        max_value=9999,
        help_text="The number of times the workshop fitted it before it was quoted here; above 0 it is no first fit.",
    )


class KitCostIn(s.Serializer[Any]):
    """The cost of a kit. Another one makes the next version of the kit."""

    cost = Figure(decimals=4, allow_null=True, help_text="The workshop's cost, before tax; null where it is not known.")


class KitArchived(s.Serializer[Any]):
    archived = s.BooleanField(help_text="True to archive it, false to bring it back.")


class KitDuplicate(s.Serializer[Any]):
    """The head of a kit that takes everything else from another one."""

    code = s.CharField(max_length=40, help_text="The code of the new kit.")
    title = s.CharField(max_length=200)
    number = s.CharField(
        max_length=60, allow_blank=True, default="", help_text="The number under which it is bought, if not its code."
    )
