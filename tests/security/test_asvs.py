"""The table of security requirements names only tests that exist, and leaves no requirement out."""

import re
import tomllib
from typing import Any

import pytest
from django.conf import settings

from tests.standards import published_cases

ROWS: list[dict[str, Any]] = tomllib.loads((settings.BASE_DIR / "tests" / "security" / "asvs.toml").read_text("utf-8"))[
    "row"
]


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_row_is_held_by_tests_that_exist_or_gives_its_reason(row: dict[str, Any]) -> None:
    assert row["state"] in ("held", "partly", "no", "none")
    assert row.get("tests") or row.get("why")
    assert row["state"] == "held" or row.get("why"), "what is not held says why"
    for node in row.get("tests", ()):
        path, _, name = node.partition("::")
        source = (settings.BASE_DIR / path).read_text("utf-8")
        assert re.search(rf"^ *def {name}\b" if name else r"^ *def test_", source, re.MULTILINE), node


def test_each_requirement_has_one_row() -> None:
    ids = [row["id"] for row in ROWS]
    assert len(ids) == len(set(ids))


@pytest.mark.standards
def test_every_selected_requirement_has_a_row() -> None:
    selected = published_cases("security/asvs-5.0.0-selected.json")
    assert {row["id"] for row in selected} == {row["id"] for row in ROWS}
