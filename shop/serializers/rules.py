from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from shop.storable import refuse_unstorable

TEXTS = {"type": "object", "additionalProperties": {"type": "string"}}
TABLES = {"type": "object", "additionalProperties": {"type": "array", "items": TEXTS}}
MOST_ROWS = 200
MOST_LETTERS = 20_000


class _Checked(s.JSONField):
    """JSON of one shape, with texts that can be stored."""

    def to_internal_value(self, data: Any) -> Any:
        try:
            value = super().to_internal_value(data)
        except RecursionError:
            self.fail("invalid")
        refuse_unstorable(value, f"/{self.field_name}")
        if not self.fits(value):
            self.fail("invalid")
        return value

    def fits(self, value: Any) -> bool:
        return isinstance(value, dict)


@extend_schema_field(TEXTS)
class FiguresField(_Checked):
    """{path: text} of single figures."""

    def fits(self, value: Any) -> bool:
        return _are_texts(value)


@extend_schema_field(TABLES)
class TablesField(_Checked):
    """{path: rows}, each row {column: text}."""

    def fits(self, value: Any) -> bool:
        return isinstance(value, dict) and all(
            isinstance(rows, list) and len(rows) <= MOST_ROWS and all(_are_texts(row) for row in rows)
            for rows in value.values()
        )


@extend_schema_field({"type": "object", "additionalProperties": True})
class PartField(_Checked):
    """A part of a rule set, as `fixtures/rules/schema.json` describes the whole."""


def _are_texts(value: Any) -> bool:
    return isinstance(value, dict) and all(
        isinstance(text, str) and len(text) <= MOST_LETTERS for text in value.values()
    )


class RulesChangeIn(s.Serializer[Any]):
    """A change of the price rules: typed figures and tables, a part of a rule set, or an earlier set again."""

    base = s.UUIDField(allow_null=True, help_text="The set that was on the screen; null in a shop without rules.")
    valid_from = s.DateField(help_text="The first day of the new set, today or later.")
    figures = FiguresField(required=False, help_text="{path: text as typed} of the figures that change.")
    tables = TablesField(required=False, help_text="{path: all its rows} of the tables that change.")
    part = PartField(required=False, help_text="A part of a rule set, merged into it as JSON Merge Patch (RFC 7396).")
    again = s.UUIDField(required=False, help_text="An earlier set whose rules apply again.")
