from typing import Any

from rest_framework import serializers as s

from kitting.models.outside import OutsideEventKind


class OutsideEventIn(s.Serializer[Any]):
    """An entry in the log of a piece of outside work: sent to its firm, asked again, or come back."""

    work = s.CharField(max_length=80, help_text="The code under which the job holds it.")
    kind = s.ChoiceField(
        OutsideEventKind.choices, help_text="Sent, asked again, come back, or the last entry is undone."
    )
    entry = s.UUIDField(
        allow_null=True, default=None, help_text="The entry that is undone: the last one; null for any other kind."
    )
    happened_on = s.DateField(help_text="The day on which it happened.")
    expected_on = s.DateField(
        allow_null=True, default=None, help_text="The day that the firm named; null for its turnaround."
    )
    reference = s.CharField(max_length=80, allow_blank=True, default="", help_text="The firm's reference.")
    note = s.CharField(
        max_length=200,
        allow_blank=True,
        default="",
        help_text="A remark, such as the person spoken to or the fault of the work.",
    )
