"""A command on a database without its tables says how to make them."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings

OPENS = ("shop", "harbour", "--name", "Harbour Works", "--currency", "EUR", "--zone", "Europe/Vienna")


@pytest.mark.parametrize("command", [OPENS, ("rules", "fixtures/rules/minimal.json", "--shop", "harbour")])
def test_a_command_on_an_empty_database_names_the_remedy(command: tuple[str, ...], tmp_path: Path) -> None:
    left_out = ("DATABASE_URL", "TEST_RUN")
    environment = {name: value for name, value in os.environ.items() if name not in left_out}
    ran = subprocess.run(
        [sys.executable, "manage.py", *command],
        cwd=settings.BASE_DIR,
        env=environment | {"VAR_DIR": str(tmp_path), "SECRET_KEY": "only-for-a-test"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 1
    assert ran.stderr.startswith(
        "CommandError: The database is not up to date. Start the server once with `make serve`"
    )
