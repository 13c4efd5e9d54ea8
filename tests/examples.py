"""The number of examples of a property: all in the drills and against seeded faults, otherwise fewer."""

import os

LONG = bool(os.environ.get("DRILLS"))


def many(most: int) -> int:
    """The number of examples of a property: all, or a fifth of them."""
    return most if LONG else max(most // 5, 20)
