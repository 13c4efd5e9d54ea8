"""Conditions on a vehicle, as in `[{"attribute": "transmission", "in": ["manual"]}]`. All of them must hold."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

Attributes = Mapping[str, str]
Condition = Mapping[str, Any]

KNOWN_VALUES = {"transmission": ("manual", "automatic")}
"""Attributes with a closed list of values."""

YES_OR_NO = {"yes": "no", "no": "yes"}


def holds(when: Sequence[Condition], attributes: Attributes) -> bool:
    """True if every condition is met. A condition on an attribute that is not recorded is not met."""
    return all(attributes.get(condition["attribute"]) in condition["in"] for condition in when)


def undecided(conditions: Iterable[Condition], attributes: Attributes) -> dict[str, tuple[str, ...]]:
    """Maps each attribute that is not recorded to the values that the conditions ask for, sorted."""
    values_by_attribute: dict[str, set[str]] = {}
    for condition in conditions:
        if not attributes.get(condition["attribute"]):
            values_by_attribute.setdefault(condition["attribute"], set()).update(condition["in"])
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(values_by_attribute.items())}


def values_to_record(conditions: Iterable[Condition]) -> dict[str, tuple[str, ...]]:
    """Maps each attribute in the conditions to the values that a person may record, both sorted.

    These are the values that the conditions name, the closed list of the attribute if it has one, and "no"
    wherever "yes" is named or the reverse.
    """
    values_by_attribute: dict[str, set[str]] = {}
    for condition in conditions:
        others = (YES_OR_NO[value] for value in condition["in"] if value in YES_OR_NO)
        recordable = KNOWN_VALUES.get(condition["attribute"], ())
        values_by_attribute.setdefault(condition["attribute"], set()).update(condition["in"], others, recordable)
    return {attribute: tuple(sorted(values)) for attribute, values in sorted(values_by_attribute.items())}


def fit(when: Sequence[Condition], attributes: Attributes) -> str:
    """`yes` or `no`; `ask` while the attributes that decide are not recorded."""
    stated = [condition for condition in when if attributes.get(condition["attribute"])]
    if not holds(stated, attributes):
        return "no"
    return "yes" if len(stated) == len(when) else "ask"
