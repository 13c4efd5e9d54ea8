from typing import Any

from rest_framework import serializers as s


class TemplateStepIn(s.Serializer[Any]):
    """A step as it is typed; each text is read as the cell of a file of labour."""

    operation = s.CharField(max_length=40, help_text="The code of the operation.")
    hours = s.CharField(max_length=20, allow_blank=True, default="", help_text="Empty for those of the operation.")
    stage = s.CharField(max_length=40, allow_blank=True, default="", help_text="The stage of the fitting.")
    after = s.ListField(child=s.CharField(max_length=40), default=list, help_text="Codes of the steps it waits for.")
    when = s.CharField(max_length=200, allow_blank=True, default="", help_text="Such as drive=all.")


class TemplateSteps(s.Serializer[Any]):
    steps = TemplateStepIn(many=True, max_length=400, help_text="In the order of the work.")  # type: ignore[call-arg]


class TemplateIn(TemplateSteps):
    code = s.CharField(max_length=40)


class TemplateArchived(s.Serializer[Any]):
    archived = s.BooleanField(help_text="True to archive it, false to bring it back.")
