"""The order of a fault's tests in `make faults`: those that reach its lines come first, the quickest of them first."""

import json
from dataclasses import replace
from pathlib import Path

from coverage import CoverageData

from tests.faults.catalogue import Fault
from tests.faults.reach import Reach

FILE = "shop/calc/tax.py"
SOURCE = """RATE = 2


def tax(amount):
    if amount < 0:
        raise ValueError(
            "less than nothing",
        )
    return amount * RATE
"""
FAULT = Fault("tax", "untaxed", FILE, "amount * RATE", "amount", ("tests/test_tax.py",))


def reach_of(folder: Path, lines: dict[str, list[int]], seconds: dict[str, float]) -> Reach:
    record = folder / "record"
    data = CoverageData(str(record))
    for test, reached in lines.items():
        data.set_context(test)
        data.add_lines({FILE: reached})
    data.write()
    record.with_suffix(".json").write_text(json.dumps(seconds))
    (folder / FILE).parent.mkdir(parents=True)
    (folder / FILE).write_text(SOURCE)
    return Reach([record])


def test_the_quickest_test_that_reaches_the_line_comes_first(tmp_path: Path) -> None:
    reach = reach_of(tmp_path, {"a": [5, 9], "refused": [5, 6], "b": [9]}, {"a": 2, "refused": 1, "b": 1})
    assert reach.tests(FAULT, tmp_path) == ["b", "a"]


def test_a_statement_of_several_lines_is_reached_by_its_first(tmp_path: Path) -> None:
    reach = reach_of(tmp_path, {"paid": [5, 9], "refused": [5, 6]}, {})
    assert reach.tests(replace(FAULT, text="less than nothing"), tmp_path) == ["refused"]


def test_lines_that_only_the_import_reaches_name_no_test(tmp_path: Path) -> None:
    reach = reach_of(tmp_path, {"": [1, 4], "paid": [5, 9]}, {})
    assert reach.tests(replace(FAULT, text="RATE = 2"), tmp_path) == []


def test_only_what_python_runs_is_recorded(tmp_path: Path) -> None:
    assert reach_of(tmp_path, {"paid": [9]}, {}).tests(replace(FAULT, file="frontend/src/tax.ts"), tmp_path) == []
