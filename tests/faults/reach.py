"""Records which tests reach a line while all of them run without a fault, by coverage.py with a context for each test.

The pytest plugin writes a file of coverage.py's and the seconds of each test beside it; `Reach` reads both.
"""

import json
import os
from ast import parse, stmt, walk
from collections.abc import Iterator
from pathlib import Path

import pytest
from coverage import Coverage, CoverageData

from tests.faults.catalogue import Fault

RECORD = "FAULTS_RECORD"  # the file to write, in the environment of the tests
PROJECT = ("shop", "kitting", "quotes")


class Recorder:
    """The plugin. It has to be there before the project is imported."""

    def __init__(self, file: Path) -> None:
        self._seconds: dict[str, float] = {}
        self._file = file
        self._coverage = Coverage(data_file=file, config_file=False, source=PROJECT)
        self._coverage.set_option("run:relative_files", value=True)
        self._coverage.start()

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self._coverage.switch_context(item.nodeid)
        try:
            return (yield)
        finally:
            self._coverage.switch_context("")

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self._seconds[report.nodeid] = self._seconds.get(report.nodeid, 0) + report.duration

    def pytest_sessionfinish(self) -> None:
        self._coverage.stop()
        self._coverage.save()
        self._file.with_suffix(".json").write_text(json.dumps(self._seconds), "utf-8")


def pytest_configure(config: pytest.Config) -> None:
    if file := os.environ.get(RECORD):
        config.pluginmanager.register(Recorder(Path(file)))


class Reach:
    """The records of several runs, read as one."""

    def __init__(self, files: list[Path]) -> None:
        self._seconds: dict[str, float] = {}
        self._recorded = []
        for file in files:
            data = CoverageData(str(file))
            data.read()
            self._recorded.append(data)
            self._seconds |= json.loads(file.with_suffix(".json").read_text("utf-8"))

    def tests(self, fault: Fault, root: Path) -> list[str]:
        """The tests that reach the statements of a fault, the quickest first."""
        if not fault.file.endswith(".py"):
            return []
        lines = _lines(fault, (root / fault.file).read_text("utf-8"))
        names = {name for data in self._recorded for name in self._reaching(data, fault.file, lines)}
        return sorted(names, key=lambda name: (self._seconds.get(name, 0), name))

    @staticmethod
    def _reaching(data: CoverageData, file: str, lines: set[int]) -> Iterator[str]:
        by_line = data.contexts_by_lineno(file)
        for line in lines:
            yield from filter(None, by_line.get(line, ()))


def _lines(fault: Fault, source: str) -> set[int]:
    """The lines of the fault's text, and of the simple statements that they are part of."""
    first = source[: source.index(fault.text)].count("\n") + 1
    last = first + fault.text.rstrip("\n").count("\n")
    lines = set(range(first, last + 1))
    for node in walk(parse(source)):
        if isinstance(node, stmt) and not hasattr(node, "body"):
            extent = range(node.lineno, (node.end_lineno or node.lineno) + 1)
            if extent.start <= last and first < extent.stop:
                lines |= set(extent)
    return lines
