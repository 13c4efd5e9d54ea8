"""Tests of published reference data are skipped loudly without it, and cannot be skipped with it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings

from tests.standards import SETTING, WHY

SKIPPING = """
import pytest
pytestmark = pytest.mark.standards
def test_it_holds(): pass
def test_by_itself(): pytest.skip("not today")
@pytest.mark.skip
def test_by_its_mark(): pass
"""


def run(where: Path, **environment: str) -> str:
    where.joinpath("test_skipping.py").write_text(SKIPPING)
    command = [sys.executable, "-m", "pytest", "-p", "tests.standards", "-c", os.devnull, "-ra", str(where)]
    environ = {name: value for name, value in os.environ.items() if name != SETTING}
    done = subprocess.run(
        [*command, "-p", "no:cacheprovider", "-o", "markers=standards: here"],
        cwd=settings.BASE_DIR,
        env=environ | environment | {"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"},
        capture_output=True,
        text=True,
    )
    return done.stdout


@pytest.mark.parametrize("empty", [{}, {SETTING: ""}])
def test_without_the_data_every_one_is_skipped_with_its_reason(tmp_path: Path, empty: dict[str, str]) -> None:
    process = run(tmp_path, **empty)
    assert "3 skipped" in process and "failed" not in process
    assert WHY in process


def test_with_the_data_a_skip_is_a_failure(tmp_path: Path) -> None:
    process = run(tmp_path, **{SETTING: str(tmp_path)})
    assert "1 failed, 1 passed, 1 error" in process
