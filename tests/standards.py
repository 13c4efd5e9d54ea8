"""Published reference data, which the project does not hold: the setting KITWRIGHT_STANDARDS names their folder.

Not set, the tests marked `standards` are skipped and say why. Set, none of them may be: a file that is not there,
and a skip for any other reason, is a failure.
"""

import json
import os
from collections.abc import Generator
from pathlib import Path
from typing import Any

import pytest

SETTING = "KITWRIGHT_STANDARDS"
WHY = f"{SETTING} names no folder with the published reference data"


def folder() -> Path | None:
    named = os.environ.get(SETTING)
    return Path(named) if named else None


def published_cases(path: str) -> list[Any]:
    """The list in a JSON file below the folder; one empty place where no folder is named, for the skip to stand in."""
    where = folder()
    if where is None:
        return [None]
    cases = json.loads((where / path).read_text("utf-8"))
    assert cases, f"{path} holds no case"
    return list(cases)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if folder() is None:
        for item in items:
            if item.get_closest_marker("standards"):
                item.add_marker(pytest.mark.skip(reason=WHY))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    report = yield
    if report.skipped and folder() is not None and item.get_closest_marker("standards"):
        report.outcome, report.longrepr = "failed", f"skipped although {SETTING} names a folder: {report.longrepr}"
    return report
