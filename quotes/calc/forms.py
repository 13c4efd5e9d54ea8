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
    kept: FrozenContent = json.loads(text)
    for form in range(kept["form"], FORM):
        READERS[form](kept)
    if kept["form"] > FORM:
        raise KeyError(kept["form"])
    return kept


def _second(kept: FrozenContent) -> None:
    """The second form knows a discount, the work of other firms, and several prices."""
    kept["combinations"] = None
    kept["shown"]["discount"] = None
    kept["shown"]["totals"]["discount"] = "0"
    kept["shown"]["outside"] = []
    kept["shown"]["totals"]["outside"] = "0"
    kept["inputs"]["allowances"] = []


READERS: dict[int, Callable[[FrozenContent], None]] = {1: _second}
