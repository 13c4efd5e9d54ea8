"""Finds the calculations: the `CALCULATIONS` of each app's module `vectors`."""

from collections.abc import Callable, Iterable
from importlib import import_module
from importlib.util import find_spec
from typing import Any

Calculation = Callable[[dict[str, Any]], dict[str, Any]]
"""Maps the JSON object `given` to the JSON object of the result; numbers are strings in both."""


def calculations_of(apps: Iterable[str]) -> dict[str, Calculation]:
    """The calculations of the apps (`shop`, `kitting`, …). Raises ValueError for a name that two apps use."""
    calculations: dict[str, Calculation] = {}
    for app in apps:
        if find_spec(f"{app}.vectors") is None:
            continue
        app_calculations: dict[str, Calculation] = import_module(f"{app}.vectors").CALCULATIONS
        twice = calculations.keys() & app_calculations.keys()
        if twice:
            raise ValueError(f"{app}.vectors claims {', '.join(sorted(twice))} a second time")
        calculations.update(app_calculations)
    return calculations
