from typing import Any

from rest_framework import serializers as s

from shop.models import Operation
from shop.queries.operations import FLAGS

MOST_LETTERS = 8000


class OperationChange(s.Serializer[Any]):
    """An operation as it is typed; each text is read as the cell of a file of labour."""

    title = s.CharField(max_length=200)
    skill = s.CharField(max_length=20)
    hours = s.CharField(max_length=20, help_text="Book hours, such as 1.50.")
    sharing = s.ChoiceField(Operation.Sharing.choices, default="once", help_text="Once a visit, or for each kit.")
    exposed = s.BooleanField(default=False, help_text="Rusted fasteners make it longer.")
    no_return = s.BooleanField(default=False)
    mobile_again = s.BooleanField(default=False)
    hold_point = s.BooleanField(default=False, help_text="The work stops here until somebody has checked it.")
    wheels_off = s.BooleanField(default=False, help_text="Wheels come off.")
    wait_after = s.CharField(max_length=20, allow_blank=True, default="", help_text="Minutes, or hours as in 2 h.")
    includes = s.CharField(max_length=MOST_LETTERS, allow_blank=True, default="", help_text="Codes, one a line.")
    overlaps = s.CharField(max_length=MOST_LETTERS, allow_blank=True, default="", help_text='"CODE hours", one a line.')
    cautions = s.CharField(max_length=MOST_LETTERS, allow_blank=True, default="", help_text="Cautions, one a line.")
    torques = s.CharField(
        max_length=MOST_LETTERS, allow_blank=True, default="", help_text='"Fastener: value", one a line.'
    )
    others = s.CharField(
        max_length=MOST_LETTERS, allow_blank=True, default="", help_text='"Measure: value", one a line.'
    )

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        """Writes each flag as a file has it."""
        return {**attrs, **{flag: "yes" if attrs[flag] else "no" for flag in FLAGS}}


class OperationIn(OperationChange):
    code = s.CharField(max_length=40)


class OperationArchived(s.Serializer[Any]):
    archived = s.BooleanField(help_text="True to archive it, false to bring it back.")
