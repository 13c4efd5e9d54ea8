"""The lists of seeded faults keep up with the code: each can still be made, and no calculation is without."""

from collections import Counter
from pathlib import Path

import pytest

from tests.faults.catalogue import misfit, read_faults

ROOT = Path(__file__).parents[2]
FAULTS = read_faults(ROOT)
CALCULATING = sorted(
    str(file.relative_to(ROOT))
    for app in ("shop", "kitting", "quotes")
    for file in (ROOT / app / "calc").glob("*.py")
    if "def " in file.read_text("utf-8")
)


def test_every_fault_can_still_be_made() -> None:
    assert {f"{fault.calculation}: {fault.name}": wrong for fault in FAULTS if (wrong := misfit(fault, ROOT))} == {}


def test_every_fault_has_a_name_of_its_own() -> None:
    assert [name for name, count in Counter(fault.name for fault in FAULTS).items() if count > 1] == []


def test_no_calculation_is_without_a_fault() -> None:
    spoilt = {fault.file for fault in FAULTS}
    assert [file for file in CALCULATING if file not in spoilt] == []


@pytest.mark.parametrize(("where", "least"), [("shop/", 30), ("kitting/", 15), ("quotes/", 15), ("frontend/", 15)])
def test_what_writes_permits_and_shows_has_its_faults_as_well(where: str, least: int) -> None:
    assert sum(fault.file.startswith(where) and "/calc/" not in fault.file for fault in FAULTS) >= least


def test_hardly_any_fault_is_said_to_be_beyond_the_tests() -> None:
    assert sum(bool(fault.equivalent) for fault in FAULTS) * 20 <= len(FAULTS)
