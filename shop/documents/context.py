"""Turns dataclasses into the context of a template: Django takes a dict."""

from dataclasses import fields
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed import DataclassInstance


def context(*parts: "DataclassInstance") -> dict[str, object]:
    """The fields of dataclasses by name, as they are. Of a name in two parts the later one counts."""
    return {field.name: getattr(part, field.name) for part in parts for field in fields(part)}
