"""The scripts behind `make`, each run in a folder of its own."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).parents[2] / ".make"


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """A folder with the scripts, a front end, and an npm that only writes down what it was asked for."""
    shutil.copytree(SCRIPTS, tmp_path / ".make")
    for folder in ("bin", "frontend", ".venv/bin"):
        (tmp_path / folder).mkdir(parents=True)
    for name in ("package.json", "package-lock.json"):
        (tmp_path / "frontend" / name).write_text("{}")
    npm = tmp_path / "bin" / "npm"
    npm.write_text(f'#!/bin/sh\necho "$@" >> "{tmp_path}/asked"\n')
    npm.chmod(0o755)
    return tmp_path


def run(clone: Path, *command: str) -> subprocess.CompletedProcess[str]:
    path = f"{clone / 'bin'}{os.pathsep}{os.environ['PATH']}"
    env = {**os.environ, "PATH": path}
    return subprocess.run(command, cwd=clone, env=env, capture_output=True, text=True, check=False)


def npm_asked(clone: Path) -> list[str]:
    folder = clone / "asked"
    return folder.read_text().splitlines() if folder.exists() else []


def node_packages(clone: Path) -> subprocess.CompletedProcess[str]:
    """Runs the function of setup.sh that installs the front end's packages, and no other."""
    functions, _, _ = (clone / ".make/setup.sh").read_text().partition("\ncase ")
    return run(clone, "bash", "-c", f"{functions}\nnode_packages", ".make/setup.sh")


def test_setup_installs_no_packages_through_a_link(clone: Path) -> None:
    shared = clone / "shared"
    shared.mkdir()
    (clone / "frontend/node_modules").symlink_to(shared)
    done = node_packages(clone)
    assert done.returncode == 1 and "frontend/node_modules is a link" in done.stderr
    assert npm_asked(clone) == []


def test_setup_installs_packages_where_there_are_none(clone: Path) -> None:
    done = node_packages(clone)
    assert (done.returncode, done.stderr) == (0, "")
    assert npm_asked(clone) == ["ci --no-progress --loglevel=error"]


def test_format_goes_on_to_the_front_end_and_ends_with_what_is_left(clone: Path) -> None:
    (clone / ".venv/bin/ruff").symlink_to(Path(sys.executable).parent / "ruff")
    python = clone / "rows.py"
    python.write_text("import os\nrows = [ missing ]\n")
    done = run(clone, ".make/format.sh")
    assert python.read_text() == "rows = [missing]\n"
    assert npm_asked(clone)[-1:] == ["run --silent format"]
    assert done.returncode == 1 and "Undefined name `missing`" in done.stdout
