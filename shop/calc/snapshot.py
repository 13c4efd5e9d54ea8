"""Canonical JSON text and its digest: the RFC 8785 subset of ASCII keys, strings, whole numbers, booleans and null.

Amounts are strings, never numbers, so that every reader sees the same bytes.
"""

import hashlib
import json
import unicodedata
from typing import Any

from shop.calc.errors import CalculationError

LARGEST = 2**53 - 1


def canonical(document: Any) -> str:
    """The canonical text of a document.

    Refuses `not_canonical`: floats, Decimals, other keys, text that is not UTF-8.
    """
    return json.dumps(_checked(document, "$"), ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def digest(text: str) -> str:
    """The SHA-256 of the text's UTF-8 bytes in lower-case hex."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def mark(hexadecimal: str) -> str:
    """The first eight hex digits in the form that people compare aloud: '7F3A 91C2'."""
    return f"{hexadecimal[:4]} {hexadecimal[4:8]}".upper()


def _checked(value: Any, path: str) -> Any:
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, str):
        return _text(value, path)
    if isinstance(value, int) and abs(value) <= LARGEST:
        return value
    if isinstance(value, (list, tuple)):
        return [_checked(item, f"{path}[{i}]") for i, item in enumerate(value)]
    if isinstance(value, dict):
        return {_key(key, path): _checked(item, f"{path}.{key}") for key, item in value.items()}
    raise CalculationError("not_canonical", f"{path}: {type(value).__name__}")


def _key(key: Any, path: str) -> str:
    if not isinstance(key, str) or not key.isascii():
        raise CalculationError("not_canonical", f"{path}: key {key!r}")
    return key


def _text(value: str, path: str) -> str:
    try:
        value.encode("utf-8")
    except UnicodeEncodeError:
        raise CalculationError("not_canonical", f"{path}: text with a lone surrogate") from None
    return unicodedata.normalize("NFC", value)
