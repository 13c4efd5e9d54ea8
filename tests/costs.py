"""Reads every key of a JSON document, to check that none names a cost."""

import re
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


def figure_in(figure: str, text: str) -> bool:
    """Whether the figure stands in the text by itself: an id may hold its digits."""
    return re.search(rf"(?<![\w-]){re.escape(figure)}(?![\w-])", text) is not None


def texts_of(document: Any) -> Iterator[str]:
    """Every text of a JSON document, whatever it is called."""
    if isinstance(document, str):
        yield document
    else:
        for part in document.values() if isinstance(document, dict) else document if isinstance(document, list) else ():
            yield from texts_of(part)
