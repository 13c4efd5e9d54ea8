"""An upgrade from the code of 0.0.1 itself: its commands make the rows, today's `migrate` takes them over."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.drills.installation import ROOT, Installation

RELEASED = "ca3fc408dc308c841d6f9fd083773c8e5ad880dc"  # the last commit before a migration was added to the first ones
OPEN_SHOP = ("shop", "saltmarsh", "--name", "Saltmarsh Lane", "--currency", "EUR", "--zone", "Europe/Vienna")
ADD_MANAGER = ("member", "ines@saltmarsh.example", "--shop", "saltmarsh", "--name", "Ines Corrow", "--role", "manager")
FILES = (
    ("rules", "rules.xlsx"),
    ("customers", "customers.csv"),
    ("vehicles", "vehicles.xlsx"),
    ("labour", "labour.xlsx"),
    ("consumables", "consumables.xlsx"),
)
COUNT = """
import json
from kitting.models import Consumable, Part
from shop.models import Customer, LabourTemplate, Operation, RuleSet, Vehicle
models = (Consumable, Part, Customer, LabourTemplate, Operation, RuleSet, Vehicle)
print(json.dumps({model.__name__: model.objects.count() for model in models}))
"""
READ = """
import json
from django.test import Client
from shop.models import Member
client = Client(headers={"host": "localhost"})
client.force_login(Member.objects.get().user)
names = ("consumables", "customers", "operations", "templates", "rules", "quotes", "kits")
print(json.dumps({name: client.get(f"/api/v1/shops/saltmarsh/{name}").status_code for name in names}))
"""


@pytest.fixture
def released_code(tmp_path: Path) -> Path:
    """The tree of 0.0.1 in a folder of its own."""
    history = subprocess.run(["git", "cat-file", "-e", RELEASED], cwd=ROOT, capture_output=True)
    if history.returncode:
        pytest.fail(f"this checkout lacks the commit {RELEASED} of 0.0.1: clone it with its history")
    folder = tmp_path / "released"
    folder.mkdir()
    archive = subprocess.run(["git", "archive", RELEASED], cwd=ROOT, capture_output=True, check=True)
    subprocess.run(["tar", "-x", "-C", str(folder)], input=archive.stdout, check=True)
    return folder


@pytest.mark.drill
def test_rows_of_the_released_code_are_there_after_an_upgrade(
    released_code: Path, elsewhere: Callable[[], Installation]
) -> None:
    installation = elsewhere()
    environment = installation.environment
    if installation.on_sqlite:  # the released code knows no folder for its data
        environment |= {"DATABASE_URL": f"sqlite:///{installation.file}"}
        installation.home.mkdir(parents=True, exist_ok=True)

    def released(*arguments: str, typed: str = "") -> str:
        command = [sys.executable, "manage.py", *arguments]
        done = subprocess.run(command, cwd=released_code, env=environment, input=typed, capture_output=True, text=True)
        assert done.returncode == 0, f"{arguments}: {done.stdout}\n{done.stderr}"
        return done.stdout

    released("migrate", "-v", "0")
    released(*OPEN_SHOP)
    released(*ADD_MANAGER, "--password-stdin", typed="one long passphrase\n")
    for kind, name in FILES:
        released("import", kind, f"fixtures/demo/saltmarsh/{name}", "--shop", "saltmarsh")
    before = counts(released("shell", typed=COUNT))
    assert min(before.values()) > 0

    installation.manage("migrate", "-v", "0")
    assert counts(installation.manage("shell", "-v", "0", "-c", COUNT)) == before
    answers = counts(installation.manage("shell", "-v", "0", "-c", READ))
    assert set(answers.values()) == {200}, answers


def counts(output: str) -> dict[str, int]:
    """The last line of the output."""
    content: dict[str, int] = json.loads(output.strip().splitlines()[-1])
    return content
