from typing import Any

from rest_framework import serializers as s


class AsSent(s.JSONField):
    """Any JSON, as it was sent: each event of the batch is checked by itself."""

    def run_validation(self, data: Any = s.empty) -> Any:
        return data


class BatchIn(s.Serializer):
    """At most 200 events. Each is read by itself: a bad one is a result, not a refusal of the batch."""

    events = s.ListField(child=AsSent(allow_null=True))


class ResultOut(s.Serializer):
    """stored, duplicate and late: the server has it. rejected: `problem` says why."""

    id = s.CharField(allow_null=True)
    status = s.ChoiceField(("stored", "duplicate", "late", "rejected"))
    seq = s.IntegerField(allow_null=True)
    problem = s.CharField(allow_null=True)


class ResultsOut(s.Serializer):
    results = ResultOut(many=True)


class CountEventOut(s.Serializer):
    """One place in the list's log. An event of a kind not known here carries what else was sent."""

    v = s.IntegerField()
    id = s.UUIDField()
    list = s.UUIDField()
    line = s.UUIDField()
    kind = s.CharField()
    total = s.IntegerField(allow_null=True)
    damaged = s.IntegerField(allow_null=True)
    target = s.UUIDField(allow_null=True)
    device = s.UUIDField()
    n = s.IntegerField()
    epoch = s.IntegerField()
    seen = s.IntegerField()
    made_at = s.DateTimeField()
    how = s.CharField(allow_null=True)
    note = s.JSONField()
    author = s.UUIDField()
    author_name = s.CharField()
    seq = s.IntegerField()
    late = s.BooleanField()


class EventsOut(s.Serializer):
    """`digest` of the fold at `seq`, present only when there is no more to pull."""

    events = CountEventOut(many=True)
    more = s.BooleanField()
    seq = s.IntegerField()
    epoch = s.IntegerField()
    digest = s.CharField(required=False)
    state = s.ChoiceField(("open", "closed"))
