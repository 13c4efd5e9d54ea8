"""`make faults`: makes every seeded fault in turn, a copy of the tree a core, and says which the tests notice.

Ends with `N faults, N caught, N explained, N survived`; status 1 if one survived or timed out, or the list is wrong.
Arguments are the names of lists to keep to.
"""

import os
import sys
from collections import Counter
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path
from queue import Queue
from tempfile import TemporaryDirectory
from time import monotonic
from typing import TypeVar

from tests.faults.catalogue import Fault, read_faults
from tests.faults.reach import RECORD, Reach
from tests.faults.trial import Outcome, Run, copy_tree, run_tests, try_fault

ROOT = Path(__file__).parents[2]
AT_ONCE = 1800  # seconds for all tests of a worker, without a fault
Given = TypeVar("Given")
Found = TypeVar("Found")


class Workers:
    """Copies of the tree, one for each core, all of one moment."""

    def __init__(self, folder: Path) -> None:
        self.first = copy_tree(ROOT, folder / "copy-1")
        self.count = os.cpu_count() or 1
        self._free: Queue[Path] = Queue()
        self._free.put(self.first)
        for number in range(2, self.count + 1):
            self._free.put(copy_tree(self.first, folder / f"copy-{number}"))

    def each(self, act: Callable[[Given, Path], Found], all_given: Iterable[Given]) -> Iterable[tuple[Given, Found]]:
        """`act` on every one in some copy; the results as they come."""
        pool = ThreadPoolExecutor(self.count)
        try:
            waiting = {pool.submit(self._in_a_copy, act, fault): fault for fault in all_given}
            for done in as_completed(waiting):
                yield waiting[done], done.result()
        finally:
            pool.shutdown(cancel_futures=True)

    def _in_a_copy(self, act: Callable[[Given, Path], Found], fault: Given) -> Found:
        copy = self._free.get()
        try:
            return act(fault, copy)
        finally:
            self._free.put(copy)


def main(calculations: list[str]) -> int:
    started = monotonic()
    with TemporaryDirectory(prefix="kitwright-faults-") as folder:
        workers = Workers(Path(folder))
        faults = [
            fault for fault in read_faults(workers.first) if not calculations or fault.calculation in calculations
        ]
        records = _sound(workers, faults, Path(folder))
        if not records:
            return 1
        reach = Reach(records)

        def attempt(fault: Fault, copy: Path) -> Outcome:
            return try_fault(fault, reach.tests(fault, copy), copy)

        outcomes = []
        for at, (_, outcome) in enumerate(workers.each(attempt, faults), start=1):
            outcomes.append(outcome)
            _tell(at, len(faults), outcome)
    return _sum_up(outcomes, monotonic() - started)


def _sound(workers: Workers, faults: list[Fault], folder: Path) -> list[Path]:
    """Runs all tests that faults name before anything is wrong. Their records; none if a test fails."""
    sets = _sound_sets(faults, workers.count)
    records = {tests: folder / f"record-{at}" for at, tests in enumerate(sets) if not tests[0].endswith(".ts")}

    def attempt(tests: tuple[str, ...], copy: Path) -> Run:
        return run_tests(tests, copy, {RECORD: str(records[tests])} if tests in records else {}, AT_ONCE)

    failed = [(tests, run) for tests, run in workers.each(attempt, sets) if not run.passed]
    for tests, run in failed:
        _tell_unsound(tests, run)
    print(f"{len(sets) - len(failed)} of {len(sets)} sets of tests pass without a fault", flush=True)
    return [] if failed else list(records.values())


def _sound_sets(faults: list[Fault], count: int) -> list[tuple[str, ...]]:
    """Each test once, in as many sets as there are workers, and the front end's in one: most time is in starting."""
    named = sorted({test for fault in faults for test in fault.tests})
    whole = {test for test in named if "::" not in test}
    files: dict[str, list[str]] = {}
    for test in named:
        file = test.partition("::")[0]
        if test in whole or file not in whole:
            files.setdefault(file, []).append(test)
    front = [name for name in files if name.endswith(".ts")]
    back = [tests for name, tests in files.items() if not name.endswith(".ts")]
    shares = [[test for tests in back[at::count] for test in tests] for at in range(count)]
    return [tuple(share) for share in (front, *shares) if share]


def _tell_unsound(tests: tuple[str, ...], run: Run) -> None:
    how = "fails" if run.status is not None else "does not end in time"
    print(f"{how} without any fault: {' '.join(tests)}\n{run.output}", flush=True)


def _tell(at: int, of: int, outcome: Outcome) -> None:
    words = {"caught": " by ", "explained": ": "}.get(outcome.verdict, " ") + outcome.told if outcome.told else ""
    print(f"[{at}/{of}] {outcome.fault.calculation}: {outcome.fault.name} - {outcome.verdict}{words}", flush=True)


def _sum_up(outcomes: list[Outcome], seconds: float) -> int:
    count = Counter(outcome.verdict for outcome in outcomes)
    bad = [outcome for outcome in outcomes if outcome.verdict not in ("caught", "explained")]
    for at, outcome in enumerate(bad, start=1):
        _tell(at, len(bad), outcome)
    print(f"{seconds:.0f} s; {count['TIMED OUT']} faults timed out, {count['WRONG']} faults of the list are wrong")
    print(
        f"{len(outcomes)} faults, {count['caught']} caught, {count['explained']} explained, "
        f"{count['SURVIVED']} survived"
    )
    return 1 if bad or not outcomes else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
