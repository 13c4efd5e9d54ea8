"""How a figure was worked out: the rule in plain words, the numbers of the line, and the result."""

from rest_framework import serializers as s


class HowStepOut(s.Serializer):
    words = s.CharField()
    figure = s.CharField(allow_blank=True)


class ExplainedOut(s.Serializer):
    title = s.CharField()
    rule = s.ListField(child=s.CharField())
    steps = HowStepOut(many=True)
    result = s.CharField()
