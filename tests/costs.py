"""Every key of a JSON document, to see that none speaks of costs."""

from collections.abc import Iterator
from typing import Any


def keys_of(document: Any) -> Iterator[str]:
    if isinstance(document, dict):
        for key, value in document.items():
            yield key
            yield from keys_of(value)
    elif isinstance(document, list):
        for each in document:
            yield from keys_of(each)
