from rest_framework import serializers as s

from shop.serializers.how import ExplainedOut


class ReadyOut(s.Serializer):
    """The half day from which the vehicle can be fetched."""

    day = s.DateField()
    half = s.ChoiceField(["morning", "afternoon"])
    at = s.DateTimeField()
    words = s.CharField()


class LegOut(s.Serializer):
    kind = s.ChoiceField(["drop_off", "arrival", "work", "wait", "outside"])
    since = s.DateTimeField()
    until = s.DateTimeField()
    words = s.CharField()


class ComingOut(s.Serializer):
    title = s.CharField()
    operation = s.CharField(allow_blank=True)
    at = s.DateTimeField(allow_null=True)
    words = s.CharField()


class BookedOut(s.Serializer):
    code = s.CharField()
    position = s.IntegerField()
    title = s.CharField()
    hours = s.CharField()
    start = s.DateTimeField()
    end = s.DateTimeField()
    until = s.DateTimeField(allow_null=True)


class DayOut(s.Serializer):
    day = s.DateField()
    words = s.CharField()
    opens = s.DateTimeField(allow_null=True)
    closes = s.DateTimeField(allow_null=True)


class BringOut(s.Serializer):
    """By when the vehicle has to be here."""

    day = s.DateField()
    at = s.DateTimeField()
    words = s.CharField()


class WithdrawalOut(s.Serializer):
    """The effect of the withdrawal period on the date.

    `early`: the date applies only if the customer asks for a start within the period; otherwise the date counts from
    `first_day`, the first day after it.
    """

    first_day = s.DateField()
    early = s.BooleanField()
    words = s.CharField()


class PromiseOut(s.Serializer):
    headline = s.CharField()
    others = s.CharField(allow_null=True)
    bring = BringOut(allow_null=True)
    withdrawal = WithdrawalOut(allow_null=True)
    ready = ReadyOut()
    finish = s.DateTimeField()
    since = s.DateTimeField()
    words = s.ListField(child=s.CharField())
    unknown = s.CharField(allow_null=True)
    legs = LegOut(many=True)
    coming = ComingOut(many=True)
    schedule = BookedOut(many=True)
    days = DayOut(many=True)
    how = ExplainedOut(allow_null=True)
