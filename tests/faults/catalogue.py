"""The list of seeded faults, read and held against the tree it is about."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

HERE = Path("tests/faults")


@dataclass(frozen=True, slots=True)
class Fault:
    """`text` in `file` becomes `becomes`; `tests` should notice, unless `equivalent` says why nothing can.

    `endless` says which loop never ends with it: a time-out of the tests is then how they notice.
    """

    calculation: str
    name: str
    file: str
    text: str
    becomes: str
    tests: tuple[str, ...]
    equivalent: str = ""
    endless: str = ""


def read_faults(root: Path) -> tuple[Fault, ...]:
    """Every fault listed under `root`, in the order of the files."""
    return tuple(fault for file in sorted((root / HERE).glob("*.toml")) for fault in _read(file))


def _read(file: Path) -> tuple[Fault, ...]:
    listed = tomllib.loads(file.read_text("utf-8"))
    faults = []
    for entry in listed["fault"]:
        tests = tuple(entry.pop("tests", listed["tests"]))
        faults.append(Fault(calculation=file.stem, tests=tests, **entry))
    return tuple(faults)


def misfit(fault: Fault, root: Path) -> str:
    """The reason why the fault cannot be made in the tree at `root`; empty if it can."""
    if fault.text == fault.becomes:
        return "changes nothing"
    for test in fault.tests:
        if not _is_there(test, root):
            return f"{test} is not there"
    file = root / fault.file
    if not file.is_file():
        return f"{fault.file} is not there"
    count = file.read_text("utf-8").count(fault.text)
    return "" if count == 1 else f"its text stands {count} times in {fault.file}"


def _is_there(test: str, root: Path) -> bool:
    """Returns whether the file of a test is there, and the test in it where one is named."""
    path, _, name = test.partition("::")
    name = name.partition("[")[0]
    file = root / path
    return file.is_file() and (not name or f"def {name}(" in file.read_text("utf-8"))
