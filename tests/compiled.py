"""A JSON Schema made into one function. `jsonschema` reads the schema again for each answer; here it is read once.

Only the keywords that our document uses are known. Any other is an error, so that none is passed over.
`tests/api/test_compiled.py` compares the verdicts with those of `jsonschema`.
"""

import re
from collections.abc import Callable
from typing import Any

Check = Callable[[Any], bool]
Schema = dict[str, Any]
DESCRIBES = {"title", "description", "default", "components", "x-spec-enum-id"}
SCHEMAS = "#/components/schemas/"
TYPES: dict[str, Check] = {
    "null": lambda value: value is None,
    "boolean": lambda value: type(value) is bool,
    "string": lambda value: type(value) is str,
    "array": lambda value: type(value) is list,
    "object": lambda value: type(value) is dict,
    "integer": lambda value: type(value) is int or (type(value) is float and value.is_integer()),
    "number": lambda value: type(value) in (int, float),
}
SIZES: dict[str, tuple[tuple[type, ...], Callable[[Any, Any], bool]]] = {
    "minLength": ((str,), lambda text, least: len(text) >= least),
    "maxLength": ((str,), lambda text, most: len(text) <= most),
    "pattern": ((str,), lambda text, pattern: re.search(pattern, text) is not None),
    "minItems": ((list,), lambda rows, least: len(rows) >= least),
    "maxItems": ((list,), lambda rows, most: len(rows) <= most),
    "minimum": ((int, float), lambda number, least: number >= least),
    "maximum": ((int, float), lambda number, most: number <= most),
}


class Compiler:
    """`schemas` are what a reference may name; `formats` the formats that are checked, all others are not."""

    def __init__(self, schemas: dict[str, Schema], formats: dict[str, Check]) -> None:
        self.schemas, self.formats = schemas, formats
        self._of_a_name: dict[str, Check] = {}

    def check(self, schema: Schema) -> Check:
        """True for a value that the schema allows. The value is what a JSON text was read as."""
        keywords = sorted(schema.keys() - DESCRIBES, key=lambda name: (name != "type", name))
        return every([self._keyword(name, schema) for name in keywords])

    def _keyword(self, name: str, schema: Schema) -> Check:
        keyword = schema[name]
        match name:
            case "$ref":
                return self._reference(keyword.removeprefix(SCHEMAS))
            case "type":
                return some([TYPES[name] for name in ([keyword] if isinstance(keyword, str) else keyword)])
            case "anyOf":
                return some([self.check(schema) for schema in keyword])
            case "oneOf":
                checks = [self.check(schema) for schema in keyword]
                return lambda value: sum(check(value) for check in checks) == 1
            case "enum":
                return lambda value: any(
                    value == allowed and (type(value) is bool) == (type(allowed) is bool) for allowed in keyword
                )
            case "format":
                return self.formats.get(keyword, lambda _: True)
            case "required":
                names = frozenset(keyword)
                return lambda value: type(value) is not dict or value.keys() >= names
            case "properties":
                return self._properties(keyword)
            case "additionalProperties":
                return self._further(keyword, schema.get("properties", {}).keys())
            case "items":
                item = self.check(keyword)
                return lambda value: type(value) is not list or all(map(item, value))
        types, fits = SIZES[name]
        return lambda value: type(value) not in types or fits(value, keyword)

    def _reference(self, name: str) -> Check:
        """A schema may refer to itself, so the check is looked up when it is used."""
        if name not in self._of_a_name:
            self._of_a_name[name] = lambda _: True
            self._of_a_name[name] = self.check(self.schemas[name])
        return lambda value: self._of_a_name[name](value)

    def _properties(self, keyword: dict[str, Schema]) -> Check:
        checks = {name: self.check(schema) for name, schema in keyword.items()}

        def check(value: Any) -> bool:
            if type(value) is not dict:
                return True
            return all(checks[name](part) for name, part in value.items() if name in checks)

        return check

    def _further(self, further: bool | Schema, named: Any) -> Check:
        check: Check = self.check(further) if isinstance(further, dict) else lambda _: further
        return lambda value: type(value) is not dict or all(check(value[name]) for name in value.keys() - named)


def every(checks: list[Check]) -> Check:
    if len(checks) == 1:
        return checks[0]
    return lambda value: all(check(value) for check in checks)


def some(checks: list[Check]) -> Check:
    if len(checks) == 1:
        return checks[0]
    return lambda value: any(check(value) for check in checks)
