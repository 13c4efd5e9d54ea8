"""Price rules to begin a workshop with. Their figures are examples, and their tax is 0 %, until a manager changes them.

Each has a title and a sentence in the catalogue, `preset-NAME` and `preset-NAME-for`.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

_TAXED = [
    *("part", "fluid", "labour", "fabrication", "programming"),
    *("outside work", "supplies", "fee", "core", "freight"),
]
_TAX = [{"code": "TAX", "title": "Tax", "rate": "0", "classes": _TAXED}]
_SKILLS = {
    "labour_rates": {"mechanical": "100", "electrical": "110", "fabrication": "115", "programming": "130"},
    "labour_classes": {
        "mechanical": "labour",
        "electrical": "labour",
        "fabrication": "fabrication",
        "programming": "programming",
    },
}
_BANDS = [{"up_to": "50", "x": "1.6"}, {"up_to": "500", "x": "1.4"}, {"x": "1.2"}]

_PRESETS: dict[str, dict[str, Any]] = {
    "plain": {
        "labour_rates": {"workshop": "100"},
        "labour_classes": {"workshop": "labour"},
        "markup": {"mode": "graduated", "bands": [{"x": "1.3"}]},
        "prices_include_tax": False,
        "taxes": _TAX,
        "validity_days": 14,
        "fees": [],
    },
    "private": {
        **_SKILLS,
        "markup": {"mode": "graduated", "bands": _BANDS},
        "prices_include_tax": True,
        "taxes": _TAX,
        "validity_days": 21,
        "deposit_share": "0.5",
        "minimum": {"hours": "0.5"},
        "supplies": {"rate": "0.04", "basis": ["labour", "fabrication"], "tax_class": "supplies"},
        "fees": [],
    },
    "trade": {
        **_SKILLS,
        "markup": {"mode": "graduated", "bands": _BANDS},
        "prices_include_tax": False,
        "taxes": _TAX,
        "validity_days": 14,
        "minimum": {"hours": "0.5"},
        "supplies": {"rate": "0.04", "basis": ["labour", "fabrication"], "tax_class": "supplies"},
        "fees": [],
    },
}
PRESETS: Mapping[str, dict[str, Any]] = MappingProxyType(_PRESETS)
"""{name: rules}, the plainest first."""


def has_own_rates(rules: Mapping[str, Any]) -> bool:
    """Returns whether the labour rates are other than every preset's, so that a person has put them in."""
    return all(rules.get("labour_rates") != preset["labour_rates"] for preset in PRESETS.values())
