"""The OpenAPI components of the answers."""

from collections.abc import Iterable
from functools import cache
from typing import Any, cast

import msgspec
from django.db.models import Choices

from shop.answers.base import Answer

REF = "#/components/schemas/{name}"


def is_answer(shape: Any) -> bool:
    return isinstance(shape, type) and issubclass(shape, Answer)


def reference(shape: type[Answer]) -> dict[str, str]:
    return {"$ref": REF.format(name=shape.__name__)}


@cache
def list_of(item: type[Answer]) -> type[Answer]:
    """The answer {"items": [...]}, called KitListOut for KitOut."""
    name = item.__name__.removesuffix("Out") + "ListOut"
    answer: Any = msgspec.defstruct(name, [("items", list[item])], bases=(Answer,), frozen=True)  # type: ignore[valid-type]
    return cast(type[Answer], answer)


def components(shapes: Iterable[type[Answer]]) -> dict[str, Any]:
    """The schemas of these answers and of all types that they hold, by name; enumerations are components too.

    Raises ValueError if two classes or two enumerations have one name.
    """
    enumerations: dict[str, type[Choices]] = {}

    def of_choices(kind: type) -> dict[str, str]:
        """The schema of a Django enumeration, a type that msgspec does not know."""
        if not issubclass(kind, Choices):
            raise NotImplementedError
        if enumerations.setdefault(kind.__name__, kind) is not kind:
            raise ValueError(f"two enumerations are called {kind.__name__}")
        return {"$ref": REF.format(name=kind.__name__)}

    _, schemas = msgspec.json.schema_components(shapes, schema_hook=of_choices, ref_template=REF)
    if qualified := [name for name in schemas if "." in name]:  # msgspec qualifies classes that have the same name
        raise ValueError(f"two answers have one name: {', '.join(sorted(qualified))}")
    if both := schemas.keys() & enumerations.keys():
        raise ValueError(f"an answer and an enumeration have one name: {', '.join(sorted(both))}")
    return schemas | {name: {"type": "string", "enum": kind.values} for name, kind in enumerations.items()}
