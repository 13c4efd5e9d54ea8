"""A pytest plugin: the same examples on every run, no time spent on the smallest one that fails, likely tests first.

Loaded before the conftest files, whose own profiles keep what they do not name.
"""

import os

import pytest
from hypothesis import Phase, settings

FIRST = "FAULTS_FIRST"  # in the environment: the node ids of the tests to begin with, a line each

settings.register_profile("faults", derandomize=True, database=None, phases=(Phase.explicit, Phase.generate))
settings.load_profile("faults")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    first = os.environ.get(FIRST, "").splitlines()
    place = {name: at for at, name in enumerate(first)}
    items.sort(key=lambda item: place.get(item.nodeid, len(place)))
