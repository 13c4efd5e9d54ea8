"""How many examples are tried: all in the drills and against seeded faults, otherwise fewer, to save minutes."""

import os

LONG = bool(os.environ.get("DRILLS"))


def many(most: int) -> int:
    """How many examples of a property: all, or a third of them."""
    return most if LONG else max(most // 3, 20)
