"""Conditions of a part, a step or a kit on the vehicle, as people write them in a column "fits".

Examples: "transmission=manual", "transmission: manual or automatic; drive=all", "manual only", "all". The result is a
tuple of (attribute, values); all of them must hold.
"""

import re

from shop.calc.when import KNOWN_VALUES as KNOWN
from shop.tables.sheets import Cell
from shop.tables.values import CellError, Value, plain_text

Condition = tuple[str, tuple[str, ...]]

SAME = {"auto": "automatic", "man": "manual", "at": "automatic", "mt": "manual"}
ALWAYS = frozenset({"", "all", "both", "every", "any", "-", "–", "always", "all variants", "manual and automatic"})
ASSIGNS = re.compile(r"[=:]")


def attribute_name(written: str) -> str:
    """The name in one form: "Wear_sensor" is "wear sensor"."""
    return " ".join(re.sub(r"[\W_]+", " ", written.casefold()).split())


def attribute_value(attribute: str, written: str) -> str:
    """The value in the form that conditions compare. Raises CellError if the attribute has a closed list without it."""
    folded = written.casefold()
    if attribute in KNOWN:
        value = SAME.get(folded, folded)
        if value not in KNOWN[attribute]:
            raise CellError("unknown_value", attribute=attribute, value=written, known=" / ".join(KNOWN[attribute]))
        return value
    return folded if folded in ("yes", "no") else written


def when(cell: Cell, decimal: str) -> Value:
    """Reads a cell as conditions."""
    return Value(conditions(plain_text(cell)))


def conditions(written: str) -> tuple[Condition, ...]:
    """The conditions in a text. An attribute all of whose known values are allowed is left out."""
    written = " ".join(written.split())  # runs of blanks would make the patterns below take quadratic time
    if written.casefold() in ALWAYS:
        return ()
    values_by_attribute: dict[str, tuple[str, ...]] = {}
    for part in re.split(r"\s*(?:;|&|\+|\band\b)\s*", written):
        if part:
            name, values = _condition(part)
            if name in values_by_attribute:
                raise CellError("condition_twice", attribute=name)
            values_by_attribute[name] = values
    return tuple(
        (name, values) for name, values in values_by_attribute.items() if set(values) != set(KNOWN.get(name, ()))
    )


def _condition(part: str) -> Condition:
    written, *values = ASSIGNS.split(part, maxsplit=1)
    if values and written.strip() and values[0].strip():
        name = attribute_name(written)
        words = _alternatives(values[0])
    else:
        words = _alternatives(re.sub(r"\s+only$|^only\s+", "", part, flags=re.IGNORECASE))
        name = next((attribute for word in words for attribute in _attributes_of(word)), "")
    if not name or not words:
        raise CellError("unknown_condition")
    return name, tuple(dict.fromkeys(attribute_value(name, word) for word in words))


def _alternatives(written: str) -> list[str]:
    return [word for word in re.split(r"\s*(?:,|\||/|\bor\b)\s*", written.strip()) if word]


def _attributes_of(word: str) -> list[str]:
    folded = SAME.get(word.casefold(), word.casefold())
    return [attribute for attribute, values in KNOWN.items() if folded in values]
