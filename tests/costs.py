"""Every key of a JSON document, to see that none speaks of costs."""

from collections.abc import Iterator
from typing import Any


def keys_of(document: Any) -> Iterator[str]:
    if isinstance(document, dict):
        for key, value in document.items():
            yield key
            yield from keys_of(value)
    elif isinstance(document, list):
        for part in document:
            yield from keys_of(part)


def texts_of(document: Any) -> Iterator[str]:
    """Every text of a JSON document, whatever it is called."""
    if isinstance(document, str):
        yield document
    else:
        for part in document.values() if isinstance(document, dict) else document if isinstance(document, list) else ():
            yield from texts_of(part)
