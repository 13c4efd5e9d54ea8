from rest_framework import serializers as s


class ReadyOut(s.Serializer):
    """The half day from which the vehicle can be fetched."""

    day = s.DateField()
    half = s.ChoiceField(["morning", "afternoon"])
    at = s.DateTimeField()
    words = s.CharField()


class LegOut(s.Serializer):
    kind = s.ChoiceField(["drop_off", "arrival", "work", "wait"])
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


class PromiseStepOut(s.Serializer):
    words = s.CharField()
    figure = s.CharField()


class PromiseHowOut(s.Serializer):
    """How a figure is computed: the rule in plain words, the worked numbers, what they come to."""

    title = s.CharField()
    rule = s.ListField(child=s.CharField())
    steps = PromiseStepOut(many=True)
    result = s.CharField()


class PromiseOut(s.Serializer):
    ready = ReadyOut()
    finish = s.DateTimeField()
    since = s.DateTimeField()
    words = s.ListField(child=s.CharField())
    unknown = s.CharField(allow_null=True)
    legs = LegOut(many=True)
    coming = ComingOut(many=True)
    schedule = BookedOut(many=True)
    days = DayOut(many=True)
    how = PromiseHowOut(allow_null=True)
