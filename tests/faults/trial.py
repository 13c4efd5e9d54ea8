"""One worker's copy of the tree: a fault is made in it, the named tests are run, the file is put back."""

import os
import re
import shutil
import signal
import subprocess
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from tests.faults.catalogue import Fault, misfit
from tests.faults.forked import run_pytest
from tests.faults.stable import FIRST

Verdict = Literal["caught", "explained", "SURVIVED", "TIMED OUT", "WRONG"]
NEEDED = ("shop", "kitting", "quotes", "tests", "fixtures", "frontend", "manage.py", "pyproject.toml")
LEFT_OUT = shutil.ignore_patterns("__pycache__", "node_modules", "dist", ".*")
PATIENCE = 180
"""Seconds for the tests of one fault: sound, they take a few; a fault may make a loop that never ends."""
FRONT_PATIENCE = 30_000  # milliseconds for one test of the front end; its own limit of 5 s fails sound tests under load
NOTHING: Mapping[str, str] = {}

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
    """Copies the files of `source` that tests need; packages and the built front end are shared with it."""
    target.mkdir()
    for name in NEEDED:
        if (source / name).is_dir():
            shutil.copytree(source / name, target / name, ignore=LEFT_OUT)
        else:
            shutil.copy2(source / name, target / name)
    for name in ("node_modules", "dist"):
        shared = (source / "frontend" / name).resolve()
        (target / "frontend" / name).symlink_to(shared, target_is_directory=True)
    (target / "var").mkdir()
    for database in (source / "var").glob("migrated-*.sqlite3"):
        shutil.copy2(database, target / "var")
    return target


def try_fault(fault: Fault, first: Sequence[str], copy: Path) -> Outcome:
    """Makes the fault in `copy`, runs its tests, `first` before the others, and puts the file back."""
    if wrong := misfit(fault, copy):
        return Outcome(fault, "WRONG", wrong)
    file = copy / fault.file
    sound, seen = file.read_bytes(), file.stat()
    file.write_text(sound.decode("utf-8").replace(fault.text, fault.becomes), "utf-8")
    try:
        return judge(fault, run_tests(fault.tests, copy, {FIRST: "\n".join(first)}))
    finally:
        file.write_bytes(sound)
        os.utime(file, ns=(seen.st_atime_ns, seen.st_mtime_ns))  # so that its compiled file is valid again


def judge(fault: Fault, run: Run) -> Outcome:
    """The verdict on a fault from the run of its tests. Tests that cannot even be collected notice nothing.

    A time-out is not a failing test: the machine may have been busy. It counts only for a fault that names its loop.
    """
    if run.status is None:
        return _out_of_time(fault)
    if run.passed:
        return Outcome(fault, "explained", fault.equivalent) if fault.equivalent else Outcome(fault, "SURVIVED")
    if run.status != 1 or "Failed Suites" in run.output:
        return Outcome(fault, "WRONG", f"the tests cannot be run with it: {_last_line(run.output)}")
    noticed = _who_noticed(run.output)
    for claim, verdict in ((fault.equivalent, "equivalent"), (fault.endless, "endless")):
        if claim:
            return Outcome(fault, "WRONG", f"said to be {verdict}, but caught by {noticed}")
    return Outcome(fault, "caught", noticed)


def _out_of_time(fault: Fault) -> Outcome:
    if fault.endless:
        return Outcome(fault, "caught", f"its tests, which never end with it: {fault.endless}")
    return Outcome(fault, "TIMED OUT", f"after {PATIENCE} s: run it alone, or name its loop under `endless`")


def run_tests(
    tests: tuple[str, ...], copy: Path, added: Mapping[str, str] = NOTHING, patience: float = PATIENCE
) -> Run:
    """Runs them until the first fails. Nothing depends on chance: neither examples nor the order of sets.

    What Python compiles is kept for the next run: it goes by a file's time, and no two faults are made in a file within
    a second. `added` is added to the environment.
    """
    if tests[0].endswith(".ts"):
        vitest = str(copy / "frontend" / "node_modules" / "vitest" / "vitest.mjs")
        command = ["node", vitest, "run", "--bail=1", f"--testTimeout={FRONT_PATIENCE}"]
        command += [test.removeprefix("frontend/") for test in tests]
        return ended(command, copy / "frontend", os.environ | {"NO_COLOR": "1"}, patience)
    environment = {"NO_COLOR": "1", "DRILLS": "1", "PYTHONPYCACHEPREFIX": str(copy.parent / "compiled"), **added}
    arguments = ["-x", "-q", "--tb=line", "--show-capture=no", "-p", "no:cacheprovider"]
    arguments += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]  # of plugins that were imported before the fork
    arguments += ["-p", "tests.faults.stable", "-p", "tests.faults.reach", *tests]
    return Run(*run_pytest(arguments, copy, environment, patience))


def ended(command: list[str], where: Path, environment: Mapping[str, str], patience: float = PATIENCE) -> Run:
    """The command as it ended, or stopped with all that it started: vitest works in processes of its own."""
    process = subprocess.Popen(
        command,
        cwd=where,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )
    try:
        output, _ = process.communicate(timeout=patience)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        process.communicate()
        return Run(None, "")
    return Run(process.returncode, output)


def _who_noticed(output: str) -> str:
    match = _TELLS_PYTEST.search(output) or _TELLS_VITEST.search(output)
    return match.group(1) if match else _last_line(output)


def _last_line(output: str) -> str:
    lines = [line for line in output.splitlines() if line.strip()]
    return lines[-1].strip() if lines else "nothing was said"
