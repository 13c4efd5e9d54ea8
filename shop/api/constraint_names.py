"""Finds the name of the constraint that raised an IntegrityError.

PostgreSQL names all of them. SQLite names checks and our triggers, gives the columns of a unique constraint, and
nothing for a foreign key.
"""

import re
from functools import cache
from typing import Any

from django.apps import apps
from django.db import IntegrityError
from django.db.models import UniqueConstraint

ROW_OF_THIS_SHOP = "row_of_this_shop"  # SQLite's only word for a broken foreign key


@cache
def _uniques() -> dict[tuple[str, ...], str]:
    names: dict[tuple[str, ...], str] = {}
    for model in apps.get_models():
        for constraint in model._meta.constraints:
            if isinstance(constraint, UniqueConstraint):
                fields: list[Any] = [model._meta.get_field(name) for name in constraint.fields]
                columns = (field.column for field in fields)
                key = tuple(f"{model._meta.db_table}.{column}" for column in columns)
                assert key not in names, f"{constraint.name}, {names[key]}: same columns, SQLite cannot tell them apart"
                names[key] = str(constraint.name)
    return names


def refusal(error: IntegrityError) -> str:
    """The name of the constraint, `row_of_this_shop` for a key on SQLite, or the database's own text."""
    diagnosis = getattr(error.__cause__, "diag", None)
    if diagnosis is not None:
        return diagnosis.constraint_name or str(error)
    text = str(error)
    if match := re.match(r"UNIQUE constraint failed: (.*)", text):
        return _uniques().get(tuple(match[1].split(", ")), text)
    if match := re.match(r"CHECK constraint failed: (\w+)", text):
        return match[1]
    return ROW_OF_THIS_SHOP if text.startswith("FOREIGN KEY") else text
