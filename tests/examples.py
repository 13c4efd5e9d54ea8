"""What is tried at length: everything in the drills and against seeded faults; else less, for the minutes it takes."""

import os

LONG = bool(os.environ.get("DRILLS"))


def many(most: int) -> int:
    """How many examples of a property: all, or a third of them."""
    return most if LONG else max(most // 3, 20)
