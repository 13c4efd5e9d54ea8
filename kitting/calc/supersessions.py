"""The chain of parts that replace one another."""

from collections.abc import Mapping


def leads_to(part: str, other: str, newer: Mapping[str, str]) -> bool:
    """Returns whether the part is the other one, or leads to it by any number of replacements.

    `newer` is {part: the one that replaces it}. A circular chain ends where it would repeat.
    """
    chain: set[str] = set()
    while part and part not in chain:
        if part == other:
            return True
        chain.add(part)
        part = newer.get(part, "")
    return False
