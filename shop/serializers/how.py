"""How a figure is computed: the rule in plain words, the worked numbers of the very line, and what they come to."""

from rest_framework import serializers as s


class HowStepOut(s.Serializer):
    words = s.CharField()
    figure = s.CharField(allow_blank=True)


class ExplainedOut(s.Serializer):
    title = s.CharField()
    rule = s.ListField(child=s.CharField())
    steps = HowStepOut(many=True)
    result = s.CharField()
