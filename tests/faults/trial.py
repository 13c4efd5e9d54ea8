"""One worker's copy of the tree: a fault is made in it, the named tests are run, the file is put back."""

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from tests.faults.catalogue import Fault, misfit

Verdict = Literal["caught", "explained", "SURVIVED", "WRONG"]
NEEDED = ("shop", "kitting", "quotes", "tests", "fixtures", "frontend", "manage.py", "pyproject.toml")
LEFT_OUT = shutil.ignore_patterns("__pycache__", "node_modules", "dist", ".*")
PATIENCE = 180
"""Seconds for the tests of one fault: sound, they take a few; a fault may make a loop that never ends."""

_TELLS_PYTEST = re.compile(r"^(?:FAILED|ERROR) (\S+)", re.MULTILINE)
_TELLS_VITEST = re.compile(r"^\W*FAIL\W+src/\S+ > (.+)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Outcome:
    """`told` is the test that noticed, the explanation, or what is wrong with the fault."""

    fault: Fault
    verdict: Verdict
    told: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """`status` as the runner of the tests ended; None when it was stopped."""

    status: int | None
    output: str

    @property
    def passed(self) -> bool:
        return self.status == 0


def copy_tree(source: Path, target: Path) -> Path:
    """What the tests need of `source`; the packages of the front end are shared with it."""
    target.mkdir()
    for name in NEEDED:
        if (source / name).is_dir():
            shutil.copytree(source / name, target / name, ignore=LEFT_OUT)
        else:
            shutil.copy2(source / name, target / name)
    packages = (source / "frontend" / "node_modules").resolve()
    (target / "frontend" / "node_modules").symlink_to(packages, target_is_directory=True)
    return target


def try_fault(fault: Fault, copy: Path) -> Outcome:
    """Makes the fault in `copy`, runs its tests and puts the file back."""
    if wrong := misfit(fault, copy):
        return Outcome(fault, "WRONG", wrong)
    file = copy / fault.file
    sound = file.read_bytes()
    file.write_text(sound.decode("utf-8").replace(fault.text, fault.becomes), "utf-8")
    try:
        return judge(fault, run_tests(fault.tests, copy))
    finally:
        file.write_bytes(sound)


def judge(fault: Fault, run: Run) -> Outcome:
    """What the run of its tests says of a fault. Tests that cannot even be collected notice nothing."""
    if run.passed:
        return Outcome(fault, "explained", fault.equivalent) if fault.equivalent else Outcome(fault, "SURVIVED")
    if run.status not in (1, None) or "Failed Suites" in run.output:
        return Outcome(fault, "WRONG", f"the tests cannot be run with it: {_last_line(run.output)}")
    noticed = "its tests, which never end with it" if run.status is None else _who_noticed(run.output)
    if fault.equivalent:
        return Outcome(fault, "WRONG", f"said to be equivalent, but caught by {noticed}")
    return Outcome(fault, "caught", noticed)


def run_tests(tests: tuple[str, ...], copy: Path) -> Run:
    """Runs them until the first fails. Nothing depends on chance: neither examples nor the order of sets."""
    environment = os.environ | {"PYTHONHASHSEED": "0", "PYTHONDONTWRITEBYTECODE": "1", "NO_COLOR": "1"}
    where, command = copy, [sys.executable, "-m", "pytest", "-x", "-q", "--tb=no", "-p", "no:cacheprovider"]
    command += ["-p", "tests.faults.stable", *tests]
    if tests[0].endswith(".ts"):
        where = copy / "frontend"
        vitest = str(where / "node_modules" / "vitest" / "vitest.mjs")
        command = ["node", vitest, "run", "--bail=1", *(test.removeprefix("frontend/") for test in tests)]
    try:
        done = subprocess.run(
            command, cwd=where, env=environment, capture_output=True, text=True, timeout=PATIENCE, check=False
        )
    except subprocess.TimeoutExpired:
        return Run(None, "")
    return Run(done.returncode, done.stdout + done.stderr)


def _who_noticed(output: str) -> str:
    found = _TELLS_PYTEST.search(output) or _TELLS_VITEST.search(output)
    return found.group(1) if found else _last_line(output)


def _last_line(output: str) -> str:
    lines = [line for line in output.splitlines() if line.strip()]
    return lines[-1].strip() if lines else "nothing was said"
