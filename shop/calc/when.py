"""Conditions on a vehicle, `[{"attribute": "transmission", "in": ["manual"]}]`: all of them must hold."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

Attributes = Mapping[str, str]
Condition = Mapping[str, Any]

KNOWN_VALUES = {"transmission": ("manual", "automatic")}
"""Attributes whose values we know and hold people to."""

YES_OR_NO = {"yes": "no", "no": "yes"}


def holds(when: Sequence[Condition], attributes: Attributes) -> bool:
    """Whether every condition is met; one on an attribute that is not recorded is not."""
    return all(attributes.get(each["attribute"]) in each["in"] for each in when)


def undecided(conditions: Iterable[Condition], attributes: Attributes) -> dict[str, tuple[str, ...]]:
    """Maps every attribute that is not recorded to the values asked for, sorted."""
    found: dict[str, set[str]] = {}
    for each in conditions:
        if not attributes.get(each["attribute"]):
            found.setdefault(each["attribute"], set()).update(each["in"])
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(found.items())}


def values_to_record(conditions: Iterable[Condition]) -> dict[str, tuple[str, ...]]:
    """Maps every attribute that is asked for to the values that a person may record, both sorted.

    Those that the conditions name, the others of an attribute whose values we know, and "no" beside "yes".
    """
    found: dict[str, set[str]] = {}
    for each in conditions:
        others = (YES_OR_NO[value] for value in each["in"] if value in YES_OR_NO)
        known = KNOWN_VALUES.get(each["attribute"], ())
        found.setdefault(each["attribute"], set()).update(each["in"], others, known)
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(found.items())}


def fit(when: Sequence[Condition], attributes: Attributes) -> str:
    """`yes`, `no`, or `ask` while what would decide is not recorded."""
    stated = [each for each in when if attributes.get(each["attribute"])]
    if not holds(stated, attributes):
        return "no"
    return "yes" if len(stated) == len(when) else "ask"
