from typing import Any

from rest_framework import serializers as s


class AsSent(s.JSONField):
    """Any JSON, as it was sent: each event of the batch is checked by itself."""

    def run_validation(self, data: Any = s.empty) -> Any:
        return data


class BatchIn(s.Serializer[Any]):
    """At most 200 events. Each is read by itself: a bad one is a result, not a refusal of the batch."""

    events = s.ListField(
        child=AsSent(allow_null=True),
        help_text="As the phone made them, at most 200. A bad one is a result, not a refusal of the batch.",
    )
