from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from shop.api.parsers import refuse_unkeepable


@extend_schema_field({"type": "object", "additionalProperties": {"type": "string"}})
class MappingField(s.JSONField):
    """{field: heading}; in a form it is written as JSON."""

    def to_internal_value(self, data: Any) -> Any:
        try:
            value = super().to_internal_value(data)
        except RecursionError:
            self.fail("invalid")
        refuse_unkeepable(value, "/mapping")
        return value


class ImportIn(s.Serializer):
    kind = s.CharField(max_length=20)
    file = s.FileField(allow_empty_file=True, max_length=200)
    supplier = s.CharField(max_length=120, allow_blank=True, default="")
    mapping = MappingField(default=dict)


class BecomesOut(s.Serializer):
    title = s.CharField()
    words = s.ListField(child=s.CharField())


class ColumnOut(s.Serializer):
    sheet = s.CharField(allow_blank=True)
    column = s.CharField()
    heading = s.CharField()
    field = s.CharField()


class HeadingOut(s.Serializer):
    sheet = s.CharField(allow_blank=True)
    column = s.CharField()
    heading = s.CharField()


class ImportFieldOut(s.Serializer):
    field = s.CharField()
    words = s.CharField()
    required = s.BooleanField()  # type: ignore[assignment]


class FindingOut(s.Serializer):
    sheet = s.CharField(allow_blank=True)
    row = s.IntegerField(allow_null=True)
    column = s.CharField(allow_blank=True)
    cell = s.CharField(allow_blank=True)
    weight = s.ChoiceField(["must_fix", "please_check", "done_for_you"])
    words = s.CharField()
    remedy = s.CharField(allow_blank=True)
    says = s.CharField(allow_blank=True)


class FindingCountsOut(s.Serializer):
    must_fix = s.IntegerField()
    please_check = s.IntegerField()
    done_for_you = s.IntegerField()


class ImportOut(s.Serializer):
    """A file as read: what it would become, and every problem by its cell. Nothing is saved until it is imported."""

    id = s.UUIDField()
    kind = s.CharField()
    file_name = s.CharField()
    supplier = s.CharField(allow_blank=True)
    state = s.ChoiceField(["read", "taken"])
    by = s.CharField(allow_null=True)
    read_at = s.DateTimeField()
    taken_at = s.DateTimeField(allow_null=True)
    becomes = BecomesOut()
    rows = s.IntegerField()
    good = s.IntegerField()
    skipped = s.IntegerField()
    columns = ColumnOut(many=True)
    headings = HeadingOut(many=True)
    fields = ImportFieldOut(many=True)  # type: ignore[assignment]
    findings = FindingOut(many=True)
    counts = FindingCountsOut()
    can_take_in = s.BooleanField()


class ImportRowOut(s.Serializer):
    """A file in the list of files."""

    id = s.UUIDField()
    kind = s.CharField()
    file_name = s.CharField()
    supplier = s.CharField(allow_blank=True)
    state = s.ChoiceField(["read", "taken"])
    by = s.CharField(allow_null=True)
    read_at = s.DateTimeField()
    taken_at = s.DateTimeField(allow_null=True)
    title = s.CharField()
    must_fix = s.IntegerField()


class TakeInIn(s.Serializer):
    """Nothing: the file is named by the address."""
