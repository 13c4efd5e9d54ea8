"""Reads a JSON body, and refuses by its place what neither database could keep."""

import json
from typing import Any

from rest_framework.parsers import JSONParser

from shop.api.problems import Problem, field_problem

DEEPEST = 32  # levels of lists and objects; a body of ours has five
LARGEST = 2**63 - 1


def read_json(body: bytes) -> Any:
    """The value, or a 400 of the type malformed."""
    try:
        return json.loads(body.decode("utf-8"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise Problem(400, "malformed") from None


def _no_number(text: str) -> None:
    raise ValueError(text)


def refuse_unkeepable(value: Any, pointer: str = "") -> None:
    """Raises the problem of the first text with NUL or half a surrogate pair, number without end, or list too deep."""
    waiting = [(value, pointer, 0)]
    while waiting:
        value, pointer, depth = waiting.pop()
        if isinstance(value, str):
            if not is_text(value):
                raise field_problem(pointer, "surrogate_characters_not_allowed")
        elif isinstance(value, dict | list):
            if depth >= DEEPEST:
                raise field_problem(pointer, "too_deep")
            if isinstance(value, dict) and not all(map(is_text, value)):
                raise field_problem(pointer, "surrogate_characters_not_allowed")
            items = value.items() if isinstance(value, dict) else enumerate(value)
            waiting += [(each, f"{pointer}/{_escaped(name)}", depth + 1) for name, each in items]
        elif isinstance(value, int) and abs(value) > LARGEST:
            raise field_problem(pointer, "whole_number_large")


def is_text(value: str) -> bool:
    """Whether both databases can keep it."""
    return "\0" not in value and (value.isascii() or not any("\ud800" <= each <= "\udfff" for each in value))


def _escaped(name: object) -> str:
    """A step of a JSON pointer (RFC 6901)."""
    return str(name).replace("~", "~0").replace("/", "~1")


class JSONBody(JSONParser):
    def parse(self, stream: Any, media_type: Any = None, parser_context: Any = None) -> Any:
        value = read_json(stream.read())
        refuse_unkeepable(value)
        return value
