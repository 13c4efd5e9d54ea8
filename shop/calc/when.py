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
    return all(attributes.get(condition["attribute"]) in condition["in"] for condition in when)


def undecided(conditions: Iterable[Condition], attributes: Attributes) -> dict[str, tuple[str, ...]]:
    """Maps every attribute that is not recorded to the values asked for, sorted."""
    values_by_attribute: dict[str, set[str]] = {}
    for condition in conditions:
        if not attributes.get(condition["attribute"]):
            values_by_attribute.setdefault(condition["attribute"], set()).update(condition["in"])
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(values_by_attribute.items())}


def values_to_record(conditions: Iterable[Condition]) -> dict[str, tuple[str, ...]]:
    """Maps every attribute that is asked for to the values that a person may record, both sorted.

    Those that the conditions name, the others of an attribute whose values we know, and "no" beside "yes".
    """
    values_by_attribute: dict[str, set[str]] = {}
    for condition in conditions:
        others = (YES_OR_NO[value] for value in condition["in"] if value in YES_OR_NO)
        recordable = KNOWN_VALUES.get(condition["attribute"], ())
        values_by_attribute.setdefault(condition["attribute"], set()).update(condition["in"], others, recordable)
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(values_by_attribute.items())}


def fit(when: Sequence[Condition], attributes: Attributes) -> str:
    """`yes`, `no`, or `ask` while what would decide is not recorded."""
    stated = [condition for condition in when if attributes.get(condition["attribute"])]
    if not holds(stated, attributes):
        return "no"
    return "yes" if len(stated) == len(when) else "ask"
