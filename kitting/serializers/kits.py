from rest_framework import serializers as s

from shop.serializers.figure import Figure

MOST_LEAD = 3652  # ten years, in days


class KitIn(s.Serializer):
    """A kit of which only the selling price and the hours are known, and perhaps its cost before tax, the calendar days
    until it comes, and the vehicle models that it is for, each as it is recorded on a vehicle.
    """

    code = s.CharField(max_length=40)
    title = s.CharField(max_length=200)
    price = Figure(decimals=4)
    hours = Figure(decimals=2, digits=6)
    cost = Figure(decimals=4, allow_null=True, default=None)
    lead_days = s.IntegerField(min_value=0, max_value=MOST_LEAD, allow_null=True, default=None)
    models = s.ListField(child=s.CharField(max_length=60), max_length=40, default=list)
    tax_class = s.CharField(max_length=20, allow_blank=True, default="")


class KitChange(s.Serializer):
    """`fitted_before`: how often the workshop fitted the kit before it was quoted here. Above 0 it is no first fit."""

    fitted_before = s.IntegerField(min_value=0, max_value=9999, required=False)


class KitAttributeOut(s.Serializer):
    """An attribute of a vehicle, and the values that can be recorded of it, sorted."""

    attribute = s.CharField()
    values = s.ListField(child=s.CharField())


class KitRowOut(s.Serializer):
    """`fits` is yes, ask or no for the vehicle that was asked about, null when none was; `why` says it in words.

    It is open where nobody recorded which vehicles the kit is for. `models`: the vehicle models among these.
    `attributes`: what its fit, its contents and its work depend on.
    """

    id = s.UUIDField()
    code = s.CharField()
    title = s.CharField()
    supplier = s.CharField(allow_null=True)
    revision = s.IntegerField(allow_null=True)
    parts = s.IntegerField()
    cartons = s.IntegerField()
    fits = s.CharField(allow_null=True)
    why = s.CharField()
    models = s.ListField(child=s.CharField())
    attributes = KitAttributeOut(many=True)


class KitLineOut(s.Serializer):
    """`depth` is 0 for what lies loose in the kit; lines come in reading order."""

    kind = s.CharField()
    depth = s.IntegerField()
    label = s.CharField()  # type: ignore[assignment]  # the fields of a shape are not the attributes of a field
    number = s.CharField()
    title = s.CharField()
    quantity = s.CharField()
    unit = s.CharField()
    when = s.CharField()
    ships = s.CharField()
    operation = s.CharField()


class KitNeedOut(s.Serializer):
    title = s.CharField()
    number = s.CharField()
    rule = s.CharField()
    quantity = s.CharField()
    unit = s.CharField()
    of = s.CharField()
    charge = s.CharField()
    operation = s.CharField()


class ReusedOut(s.Serializer):
    title = s.CharField()
    quantity = s.CharField()
    off_at = s.CharField()
    back_at = s.CharField()


class KitOut(KitRowOut):
    number = s.CharField()
    price = s.CharField(allow_null=True)
    hours = s.CharField(allow_null=True)
    labour = s.CharField(allow_null=True)
    fitted_before = s.IntegerField()
    lines = KitLineOut(many=True)
    needs = KitNeedOut(many=True)
    reused = ReusedOut(many=True)
