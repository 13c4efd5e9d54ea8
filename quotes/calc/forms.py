"""Frozen texts of every form that was ever sent, read as the newest form. The texts themselves never change."""

import json
from collections.abc import Callable
from typing import Any

FORM = 2
FrozenContent = dict[str, Any]


def read_text(text: str) -> FrozenContent:
    """The content of a frozen text with everything that the newest form has; its `form` stays the one it was sent in.

    Raises KeyError for a form that this version does not know.
    """
    content: FrozenContent = json.loads(text)
    for form in range(content["form"], FORM):
        READERS[form](content)
    if content["form"] > FORM:
        raise KeyError(content["form"])
    return content


def _second(content: FrozenContent) -> None:
    """The second form knows a discount, the work of other firms, and several prices."""
    content["combinations"] = None
    content["shown"]["discount"] = None
    content["shown"]["totals"]["discount"] = "0"
    content["shown"]["outside"] = []
    content["shown"]["totals"]["outside"] = "0"
    content["inputs"]["allowances"] = []


READERS: dict[int, Callable[[FrozenContent], None]] = {1: _second}
