"""Notices above all steps of a job: the warning of high voltage, then the sentences of the workshop's rules."""

import re
from collections.abc import Mapping
from datetime import date

from shop.access import rules_on
from shop.calc.rules import Rules
from shop.models import Shop
from shop.words import say

_HIGH_VOLTAGE = re.compile(r"high[ -]?voltage", re.IGNORECASE)
_NONE = ("", "no", "none", "not fitted")


def bay_notices(shop: Shop, attributes: Mapping[str, str], today: date) -> list[str]:
    """The notices for a vehicle with these attributes, by the rule set of `today` in the shop's zone."""
    row = rules_on(shop, today)
    own = Rules.from_json(row.rules).bay_words if row else ()
    return [*([say("job.high_voltage")] if has_high_voltage(attributes) else []), *own]


def has_high_voltage(attributes: Mapping[str, str]) -> bool:
    """Returns whether an attribute or a value names high voltage; an attribute with the value "no" does not count."""
    return any(
        _HIGH_VOLTAGE.search(value) or (_HIGH_VOLTAGE.search(name) and value.strip().casefold() not in _NONE)
        for name, value in attributes.items()
    )
