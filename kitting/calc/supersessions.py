"""The chain of parts that replace one another."""

from collections.abc import Mapping


def leads_to(part: str, other: str, newer: Mapping[str, str]) -> bool:
    """Returns whether the part is the other one, or is replaced by it over however many others.

    `newer` is {part: the one that replaces it}. A chain that turns in a circle ends where it begins again.
    """
    chain: set[str] = set()
    while part and part not in chain:
        if part == other:
            return True
        chain.add(part)
        part = newer.get(part, "")
    return False
