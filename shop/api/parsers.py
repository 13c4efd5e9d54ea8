"""Reads a JSON body."""

import json
from typing import Any

from rest_framework.parsers import JSONParser

from shop.errors import RequestError
from shop.storable import refuse_unstorable


def read_json(body: bytes) -> Any:
    """The value of a JSON body; 400 malformed if it has none."""
    try:
        return json.loads(body.decode("utf-8"), parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise RequestError(400, "malformed") from None


def _no_number(text: str) -> None:
    raise ValueError(text)


class JSONBody(JSONParser):
    def parse(self, stream: Any, media_type: Any = None, parser_context: Any = None) -> Any:
        value = read_json(stream.read())
        refuse_unstorable(value)
        return value
