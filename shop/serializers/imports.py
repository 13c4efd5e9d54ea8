from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from shop.storable import refuse_unstorable
from shop.tables.registry import kinds


@extend_schema_field({"type": "object", "additionalProperties": {"type": "string"}})
class MappingField(s.JSONField):
    """{field: heading}; in a form it is written as JSON."""

    def to_internal_value(self, data: Any) -> Any:
        try:
            value = super().to_internal_value(data)
        except RecursionError:
            self.fail("invalid")
        refuse_unstorable(value, "/mapping")
        return value


@extend_schema_field({"type": "string", "enum": sorted(kinds())})
class KindField(s.CharField):
    """A kind of file. The view refuses an unknown one and lists the known kinds."""


class ImportIn(s.Serializer[Any]):
    kind = KindField(max_length=20, help_text="The kind of file.")
    file = s.FileField(
        allow_empty_file=True, max_length=200, help_text="The file itself. Sent more than once, the files are one list."
    )
    supplier = s.CharField(
        max_length=120,
        allow_blank=True,
        default="",
        help_text="The name of the supplier; empty where it matters to none.",
    )
    mapping = MappingField(default=dict, help_text="The field that each column fills; in a form it is written as JSON.")


class TakeInIn(s.Serializer[Any]):
    """Has no fields: the address names the file."""


class StepIn(s.Serializer[Any]):
    """A decision about a file. Its kind says which of the other fields it needs."""

    do = s.ChoiceField(
        choices=("field", "answer", "value", "leave_out", "place"),
        help_text="Type a fact, answer a question, write into cells, leave rows out, or put rows into a bag.",
    )
    sheet = s.CharField(max_length=200, allow_blank=True, default="", help_text="The sheet of the rows.")
    rows = s.ListField(
        child=s.IntegerField(min_value=1, max_value=1_100_000),
        max_length=10_000,
        default=list,
        help_text="The rows of the file that it concerns.",
    )
    problem = s.CharField(
        max_length=16,
        allow_blank=True,
        default="",
        help_text="A problem of one of the rows: the step is then for every row of the sheet that has it.",
    )
    field = s.CharField(max_length=60, allow_blank=True, default="", help_text="The field that is written.")
    text = s.CharField(max_length=400, allow_blank=True, default="", help_text="The text, or the value of the answer.")
    question = s.CharField(max_length=60, allow_blank=True, default="", help_text="The key of the question.")
    carton = s.CharField(max_length=80, allow_blank=True, default="", help_text="The carton that the rows go into.")
    bag = s.CharField(max_length=80, allow_blank=True, default="", help_text="The bag that the rows go into.")
