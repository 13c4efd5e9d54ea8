"""The figures of a quote: kits, labour, needs, fees, totals and possible prices."""

from typing import Any

from rest_framework import serializers as s


class OverrideOut(s.Serializer[Any]):
    value = s.CharField()
    because = s.CharField()


class QuotedKitOut(s.Serializer[Any]):
    """`parts`: lines of its parts list that apply to the vehicle, of all that are `listed`; an older sent version
    has only the first.
    """

    line = s.CharField()
    letter = s.CharField()
    kit = s.CharField()
    code = s.CharField()
    title = s.CharField()
    issue = s.IntegerField()
    parts = s.IntegerField()
    listed = s.IntegerField(required=False)
    cartons = s.IntegerField()
    first_fit = s.CharField(allow_null=True, required=False)
    fitted_before = s.BooleanField(required=False)
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    alone_hours = s.CharField()
    saves_hours = s.CharField()
    saves_amount = s.CharField()
    key = s.CharField()
    override = OverrideOut(allow_null=True)


class QuotedOperationOut(s.Serializer[Any]):
    """`corroded`: by how many percent corroded fasteners raise the hours. An older sent version lacks it."""

    key = s.CharField()
    code = s.CharField()
    title = s.CharField()
    skill = s.CharField()
    kits = s.ListField(child=s.CharField())
    hours = s.CharField()
    rate = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)
    corroded = s.CharField(allow_null=True, required=False)


class QuotedStageOut(s.Serializer[Any]):
    """An install stage with the sum of its operations, which `keys` name in the order of work."""

    title = s.CharField()
    hours = s.CharField()
    price = s.CharField()
    keys = s.ListField(child=s.CharField())


class QuotedLabourOut(s.Serializer[Any]):
    """An older sent version lacks `stages`."""

    hours = s.CharField()
    apart_hours = s.CharField()
    amount = s.CharField()
    why = s.ListField(child=s.CharField())
    stages = QuotedStageOut(many=True, required=False)
    operations = QuotedOperationOut(many=True)


class QuotedPackOut(s.Serializer[Any]):
    part = s.CharField()
    number = s.CharField()
    title = s.CharField()
    size = s.CharField()
    count = s.IntegerField()


class QuotedNeedOut(s.Serializer[Any]):
    key = s.CharField()
    title = s.CharField()
    quantity = s.CharField()
    unit = s.CharField()
    packs = QuotedPackOut(many=True)
    kits = s.ListField(child=s.CharField())
    operation = s.CharField()
    charge = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)


class QuotedExtraOut(s.Serializer[Any]):
    line = s.CharField()
    part = s.CharField(allow_null=True)
    title = s.CharField()
    quantity = s.CharField()
    unit_price = s.CharField()
    price = s.CharField()
    tax_class = s.CharField()


class QuotedOutsideOut(s.Serializer[Any]):
    """Work of another firm. `name` holds the firm; `turnaround` is a sentence, `days` are open days."""

    line = s.CharField()
    key = s.CharField()
    title = s.CharField()
    firm = s.CharField()
    name = s.CharField()
    price = s.CharField()
    tax_class = s.CharField()
    days = s.IntegerField(allow_null=True)
    starts_after = s.CharField(allow_blank=True)
    needed_by = s.CharField(allow_blank=True)
    turnaround = s.CharField()
    they_need = s.CharField(allow_blank=True)
    warranty = s.CharField(allow_blank=True)
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)


class QuotedFeeOut(s.Serializer[Any]):
    key = s.CharField()
    title = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())


class DiscountOut(s.Serializer[Any]):
    """`percent` or `amount` as it was agreed; `price` is what it takes from the total, with its minus."""

    key = s.CharField()
    title = s.CharField()
    because = s.CharField()
    percent = s.CharField(allow_null=True)
    amount = s.CharField(allow_null=True)
    why = s.ListField(child=s.CharField())
    price = s.CharField()


class QuotedTaxOut(s.Serializer[Any]):
    code = s.CharField()
    title = s.CharField()
    rate = s.CharField()
    amount = s.CharField()


class QuoteTotalsOut(s.Serializer[Any]):
    kits = s.CharField()
    labour = s.CharField()
    needs = s.CharField()
    outside = s.CharField()
    extras = s.CharField()
    fees = s.CharField()
    discount = s.CharField()
    net = s.CharField()
    taxes = QuotedTaxOut(many=True)
    tax = s.CharField()
    gross = s.CharField()
    prices_include_tax = s.BooleanField()


class DecideOut(s.Serializer[Any]):
    attribute = s.CharField()
    values = s.ListField(child=s.CharField())
    words = s.CharField()


class NoticeOut(s.Serializer[Any]):
    code = s.CharField()
    about = s.CharField(allow_blank=True)
    words = s.CharField()


class ShownOut(s.Serializer[Any]):
    kits = QuotedKitOut(many=True)
    labour = QuotedLabourOut()
    needs = QuotedNeedOut(many=True)
    outside = QuotedOutsideOut(many=True)
    extras = QuotedExtraOut(many=True)
    fees = QuotedFeeOut(many=True)
    discount = DiscountOut(allow_null=True)
    totals = QuoteTotalsOut()
    decide = DecideOut(many=True)
    notices = NoticeOut(many=True)


class StatedOut(s.Serializer[Any]):
    """A value of None is any that is not named."""

    attribute = s.CharField()
    value = s.CharField(allow_null=True)


class PossiblePriceOut(s.Serializer[Any]):
    """What the quote comes to with these values; `unfit` says which kits they rule out, `ready` the half day."""

    stated = StatedOut(many=True)
    words = s.CharField()
    hours = s.CharField()
    gross = s.CharField()
    unfit = s.CharField(allow_null=True)
    nameable = s.BooleanField()
    ready = s.CharField(allow_null=True)


class UndecidedAttributeOut(s.Serializer[Any]):
    attribute = s.CharField()
    title = s.CharField()
    values = s.ListField(child=s.CharField())


class UndecidedOut(s.Serializer[Any]):
    """What is not recorded of the vehicle and changes price or hours, with a price for each combination.

    `hours` are those of the least and the most.
    """

    title = s.CharField()
    words = s.CharField()
    attributes = UndecidedAttributeOut(many=True)
    hours = s.CharField()
    prices = PossiblePriceOut(many=True)


class PriceRangeOut(s.Serializer[Any]):
    """What one says on the phone, in whole numbers."""

    low = s.CharField()
    high = s.CharField()
    hours_low = s.CharField()
    hours_high = s.CharField()
    words = s.CharField()


class KitPriceRangeOut(s.Serializer[Any]):
    """None where the kit has no price yet."""

    range = PriceRangeOut(allow_null=True)
