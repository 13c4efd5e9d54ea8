"""The verdict of `make faults` on a fault, from how its tests ended."""

import os
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.faults.catalogue import Fault
from tests.faults.trial import Run, ended, judge

FAULT = Fault("tax", "rounded twice", "shop/calc/tax.py", "a", "b", ("tests/calc/test_tax.py",))
FAILED = "F\n=== summary ===\nFAILED tests/calc/test_tax.py::test_once[0.5] - assert 1\n1 failed in 0.1s\n"
PHONE = "\n FAIL  src/calc/counting.test.ts > the fold > is sure\n"


@pytest.mark.parametrize(
    ("equivalent", "run", "verdict", "words"),
    [
        ("", Run(1, FAILED), "caught", "tests/calc/test_tax.py::test_once[0.5]"),
        ("", Run(1, PHONE), "caught", "the fold > is sure"),
        ("", Run(None, ""), "TIMED OUT", "run it alone"),
        ("no figure moves", Run(None, ""), "TIMED OUT", "run it alone"),
        ("", Run(0, "1 passed in 0.1s\n"), "SURVIVED", ""),
        ("no figure moves", Run(0, "1 passed in 0.1s\n"), "explained", "no figure moves"),
        ("no figure moves", Run(1, FAILED), "WRONG", "said to be equivalent, but caught by"),
        ("", Run(2, "ERROR tests/calc/test_tax.py\n1 error in 0.1s\n"), "WRONG", "cannot be run with it: 1 error"),
        ("", Run(5, "no tests ran\n"), "WRONG", "cannot be run with it: no tests ran"),
        ("", Run(1, "Failed Suites 1\n"), "WRONG", "cannot be run with it"),
    ],
)
def test_a_fault_is_judged_by_its_tests(equivalent: str, run: Run, verdict: str, words: str) -> None:
    outcome = judge(replace(FAULT, equivalent=equivalent), run)
    assert outcome.verdict == verdict
    assert words in outcome.told


NEVER_DONE = replace(FAULT, endless="the step waits for itself")


@pytest.mark.parametrize(
    ("run", "verdict", "words"),
    [
        (Run(None, ""), "caught", "never end with it: the step waits for itself"),
        (Run(0, "1 passed in 0.1s\n"), "SURVIVED", ""),
        (Run(1, FAILED), "WRONG", "said to be endless, but caught by"),
    ],
)
def test_tests_that_never_end_notice_a_fault_that_says_so(run: Run, verdict: str, words: str) -> None:
    outcome = judge(NEVER_DONE, run)
    assert outcome.verdict == verdict
    assert words in outcome.told


def test_a_run_past_its_time_is_stopped_and_has_no_status(tmp_path: Path) -> None:
    assert ended([sys.executable, "-c", "while True: pass"], tmp_path, os.environ, patience=0.2) == Run(None, "")
    assert ended([sys.executable, "-c", "print('done'); exit(5)"], tmp_path, os.environ) == Run(5, "done\n")
