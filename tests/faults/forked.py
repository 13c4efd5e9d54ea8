"""Runs pytest in a process that is forked from one which has imported the packages already, and nothing of the project.

The imports are more than half of the work where the first test notices the fault.
"""

import os
import signal
import sys
from collections.abc import Sequence
from multiprocessing import get_context
from pathlib import Path
from tempfile import NamedTemporaryFile

PACKAGES = [
    "babel.dates",
    "babel.numbers",
    "coverage",
    "django.contrib.sessions.middleware",
    "django.core.management",
    "django.forms",
    "django.test.client",
    "factory",
    "fluent.runtime",
    "hypothesis.strategies",
    "jsonschema",
    "msgspec",
    "openpyxl",
    "PIL.Image",
    "playwright.sync_api",
    "pypdf",
    "pytest",
    "pytest_django.plugin",
    "weasyprint",
]

_context = get_context("forkserver")
_context.set_forkserver_preload(PACKAGES)


def run_pytest(arguments: Sequence[str], where: Path, added: dict[str, str], patience: float) -> tuple[int | None, str]:
    """The status and output of pytest in the folder `where`; no status if it was stopped after `patience` seconds."""
    with NamedTemporaryFile("r", encoding="utf-8", errors="replace") as output:
        process = _context.Process(target=_in_child, args=(list(arguments), str(where), added, output.name))
        process.start()
        process.join(patience)
        if process.exitcode is None:
            os.killpg(process.pid or 0, signal.SIGKILL)
            process.join()
            return None, ""
        return process.exitcode, output.read()


def _in_child(arguments: list[str], where: str, added: dict[str, str], output: str) -> None:
    os.setsid()
    file = os.open(output, os.O_WRONLY)
    os.dup2(file, 1)
    os.dup2(file, 2)
    os.chdir(where)
    os.environ.update(added)
    sys.pycache_prefix = added.get("PYTHONPYCACHEPREFIX")
    sys.argv = ["pytest", *arguments]
    sys.path[0] = where
    for name in [name for name in sys.modules if name.partition(".")[0] == "tests"]:
        del sys.modules[name]  # of the tree that the faults are made from, not of the copy

    import pytest  # noqa: PLC0415

    status = pytest.main(arguments)
    sys.stdout.flush()
    os._exit(int(status))
