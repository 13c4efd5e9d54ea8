"""Reads frozen texts of every form ever sent as the newest form. The texts themselves never change."""

import json
from collections.abc import Callable
from typing import Any

FORM = 3
FrozenContent = dict[str, Any]
"""The JSON of a frozen text or of the record of an answer, or a part of it: the one place where plain data has no type.

Its forms differ by when they were sent. A function that reads it returns a typed value.
"""


def read_text(text: str) -> FrozenContent:
    """The content of a frozen text with all fields of the newest form. Its `form` stays the one that was sent.

    Raises KeyError for a form that this version does not know.
    """
    content: FrozenContent = json.loads(text)
    for form in range(content["form"], FORM):
        READERS[form](content)
    if content["form"] > FORM:
        raise KeyError(content["form"])
    return content


def _second(content: FrozenContent) -> None:
    """Adds what the second form introduced: a discount, work by other firms, and several prices."""
    content["combinations"] = None
    content["shown"]["discount"] = None
    content["shown"]["totals"]["discount"] = "0"
    content["shown"]["outside"] = []
    content["shown"]["totals"]["outside"] = "0"
    content["inputs"]["allowances"] = []


def _third(content: FrozenContent) -> None:
    """Adds what the third form introduced: the language of its words. Earlier ones are in that of the shop."""
    content["language"] = ""


READERS: dict[int, Callable[[FrozenContent], None]] = {1: _second, 2: _third}
