"""The JSON Schema of the price rules, recorded while `Rules` reads them: a field is described nowhere else."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, NoReturn

from shop.calc.rules import Rules
from shop.calc.rules_reader import MISSING, RulesReader

NUMBER = r"^[0-9]+(\.[0-9]+)?$"
Schema = dict[str, Any]


def rules_schema() -> Schema:
    """The schema (draft 2020-12). It allows no field that is not read, and no number with a sign or an exponent."""
    schema: Schema = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Price rules", **_object()}
    Rules.read(_Recorder(schema))
    return schema


def unknown_fields(content: Mapping[str, Any]) -> list[str]:
    """The fields of `content` that are not read, by path, such as `taxes[0].rates`: most likely misspelt."""
    return sorted(_unknown(content, rules_schema(), ""))


def _unknown(value: Any, schema: Schema, path: str) -> list[str]:
    unknown: list[str] = []
    if isinstance(value, Mapping) and isinstance(schema.get("additionalProperties"), bool):
        for name, content in value.items():
            if name not in schema["properties"]:
                unknown.append(f"{path}{name}")
            else:
                unknown += _unknown(content, schema["properties"][name], f"{path}{name}.")
    if isinstance(value, list):
        for at, row in enumerate(value):
            unknown += _unknown(row, schema.get("items", {}), f"{path.removesuffix('.')}[{at}].")
    return unknown


def _object() -> Schema:
    return {"type": "object", "properties": {}, "required": [], "additionalProperties": False}


class _Recorder(RulesReader):
    """Notes each field that is read, and returns a value with which the reading can continue."""

    def __init__(self, schema: Schema) -> None:
        super().__init__({}, "")
        self._schema = schema

    def number(self, path: str, default: str = MISSING) -> Decimal:
        self._note(path, {"type": "string", "pattern": NUMBER}, default)
        return Decimal(1)

    def share(self, path: str, default: str) -> Decimal:
        self._note(path, {"type": "string", "pattern": r"^(0(\.[0-9]+)?|1(\.0+)?)$"}, default)
        return Decimal(1)

    def above_zero(self, path: str, default: str) -> Decimal:
        self._note(path, {"type": "string", "pattern": r"^(?!0+(\.0+)?$)[0-9]+(\.[0-9]+)?$"}, default)
        return Decimal(1)

    def number_or_none(self, path: str) -> Decimal | None:
        self._note(path, {"type": ["string", "null"], "pattern": NUMBER}, None)
        return None

    def step_or_none(self, path: str, allowed: tuple[Decimal, ...]) -> Decimal | None:
        self._note(path, {"enum": [None, *(str(step) for step in allowed)]}, None)
        return None

    def numbers(self, path: str, default: Any = MISSING) -> dict[str, Decimal]:
        figure = {"type": "string", "pattern": NUMBER}
        self._note(path, {"type": "object", "additionalProperties": figure}, default)
        return {}

    def texts(self, path: str) -> dict[str, str]:
        self._note(path, {"type": "object", "additionalProperties": {"type": "string"}}, {})
        return {}

    def named(self, path: str, allowed: tuple[str, ...]) -> dict[str, str]:
        self._note(path, {"type": "object", "additionalProperties": {"enum": list(allowed)}}, {})
        return {}

    def text(self, path: str, default: str = MISSING) -> str:
        self._note(path, {"type": "string"}, default)
        return ""

    def lines(self, path: str) -> tuple[str, ...]:
        self._note(path, {"type": "array", "items": {"type": "string"}}, [])
        return ()

    def objects(self, path: str, default: Any = MISSING) -> list[RulesReader]:
        row = _object()
        self._note(path, {"type": "array", "items": row}, default)
        return [_Recorder(row)]

    def sentences(self, path: str) -> list[RulesReader]:
        row = {**_object(), "type": ["object", "string"]}
        self._note(path, {"type": "array", "items": row}, [])
        return [_Recorder(row)]

    def whole(self, path: str, default: int, most: int | None = None) -> int:
        self._note(path, {"type": "integer", "minimum": 0, **({} if most is None else {"maximum": most})}, default)
        return 1

    def whole_or_none(self, path: str) -> int | None:
        self._note(path, {"type": ["integer", "null"], "minimum": 0}, None)
        return None

    def flag(self, path: str) -> bool:
        self._note(path, {"type": "boolean"}, False)
        return False

    def one_of(self, path: str, allowed: tuple[str, ...], default: str = MISSING) -> str:
        self._note(path, {"enum": list(allowed)}, default)
        return allowed[0]

    def has(self, path: str) -> bool:
        """Notes an optional object: its required fields are required only if the object is present."""
        self._properties(path.split("."), False)[path.rpartition(".")[2]] = {**_object(), "type": ["object", "null"]}
        return True

    def value(self, path: str, default: Any = MISSING) -> NoReturn:
        raise NotImplementedError(f"{path} is read without its type")

    def refuse(self, path: str, problem: str) -> NoReturn:
        raise NotImplementedError(f"{path} is refused for {problem}")

    def _note(self, path: str, schema: Schema, default: Any) -> None:
        required = default is MISSING
        properties = self._properties(path.split("."), required)
        properties.setdefault(path.rpartition(".")[2], schema if required else {**schema, "default": default})

    def _properties(self, names: list[str], required: bool) -> Schema:
        """The properties of the object that holds the last of `names`; the objects on the way are made."""
        schema, needed = self._schema, required
        for at, name in enumerate(names):
            optional = schema["properties"].get(name, {}).get("type") == ["object", "null"]
            if needed and not optional and name not in schema["required"]:
                schema["required"].append(name)
            if at + 1 < len(names):
                schema = schema["properties"].setdefault(name, _object())
        return schema["properties"]  # type: ignore[no-any-return]
