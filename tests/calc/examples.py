"""How many examples a property is tried with: all of them in the drills and against seeded faults, else a third."""

import os

LONG = bool(os.environ.get("DRILLS"))


def many(most: int) -> int:
    return most if LONG else max(most // 3, 20)
