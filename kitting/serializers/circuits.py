from rest_framework import serializers as s

from kitting.calc.circuits import SCALES
from kitting.calc.freezing import GLYCOLS
from shop.serializers.how import ExplainedOut


class CircuitOut(s.Serializer):
    """A coolant circuit as it was sold. Litres; concentrations in per cent of the volume; degrees Celsius.

    `drained` and `residual` are assumed until somebody measures. `scales` are what may be read.
    `mix_words` are the sentences of a mix, for who mixes without signal: the same as in the answer of `mix`, their
    {facts} open.
    """

    name = s.CharField()
    title = s.CharField()
    concentrate = s.CharField(allow_blank=True)
    chemistry = s.CharField(allow_blank=True)
    capacity = s.CharField(allow_null=True)
    capacity_words = s.CharField()
    added = s.CharField()
    after = s.CharField(allow_null=True)
    target = s.CharField()
    protects = s.CharField(allow_null=True)
    protection_words = s.CharField()
    drained = s.CharField(allow_null=True)
    residual = s.CharField()
    scales = s.ListField(child=s.ChoiceField(SCALES))
    glycol = s.ChoiceField(GLYCOLS, allow_null=True)
    premix = s.CharField()
    mix_words = s.DictField(child=s.CharField())


class PremixOut(s.Serializer):
    """The other way to fill: premix and a little of one of the two."""

    premix = s.CharField()
    concentrate = s.CharField()
    water = s.CharField()
    words = s.CharField()


class PremixOnlyOut(s.Serializer):
    percent = s.CharField()
    protects = s.CharField(allow_null=True)
    words = s.CharField()


class RemedyOut(s.Serializer):
    """The target is out of reach: what to drain in all, how much more that is, and the pure fluid that goes in then."""

    drain_at_least = s.CharField()
    drain_more = s.CharField()
    then_fill = s.CharField()
    fluid = s.ChoiceField(("concentrate", "water"))
    why = s.CharField()
    words = s.CharField()


class MixOut(s.Serializer):
    """The filling now. When the target is out of reach, `concentrate` and `water` are null and `remedy` is given."""

    status = s.ChoiceField(("ok", "drain_more", "too_strong"))
    words = s.CharField()
    concentrate = s.CharField(allow_null=True)
    water = s.CharField(allow_null=True)
    fill = s.CharField()
    stays = s.CharField()
    residual = s.CharField()
    after = s.CharField()
    target = s.CharField()
    protects = s.CharField(allow_null=True)
    protection_words = s.CharField()
    premix = PremixOut(allow_null=True)
    premix_only = PremixOnlyOut(allow_null=True)
    remedy = RemedyOut(allow_null=True)
    how = ExplainedOut()
