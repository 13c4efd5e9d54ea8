"""An upgrade from the code of 0.0.1 itself: it makes the rows by its commands and requests, today's `migrate` runs."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.drills.installation import ROOT, Installation

RELEASED = "ca3fc408dc308c841d6f9fd083773c8e5ad880dc"  # the last commit before a migration was added to the first ones
OPEN_SHOP = ("shop", "saltmarsh", "--name", "Saltmarsh Lane", "--currency", "EUR", "--zone", "Europe/Vienna")
ADD_MANAGER = ("member", "ines@saltmarsh.example", "--shop", "saltmarsh", "--name", "Ines Corrow", "--role", "manager")
FILES = (
    ("rules", "saltmarsh/rules.xlsx"),
    ("customers", "saltmarsh/customers.csv"),
    ("vehicles", "saltmarsh/vehicles.xlsx"),
    ("labour", "saltmarsh/labour.xlsx"),
    ("consumables", "saltmarsh/consumables.xlsx"),
    ("kit", "suppliers/ferrous-vane-FV-BB356.csv"),
    ("kit", "suppliers/quillfen-QF-ATC45-packing-list.xlsx"),
)
# Sells both kits: one quote is accepted on its link, one is sent, one stays a draft. In the words of 0.0.1.
SELL = """
import json, uuid
from django.conf import settings
settings.ALLOWED_HOSTS = ["*"]
settings.SECURE_COOKIES = False
from rest_framework.test import APIClient
from shop.models import Member
def asked(way, path, body=None):
    headers = {"Idempotency-Key": str(uuid.uuid4())} if way == "post" else {}
    answer = getattr(client, way)("/api/v1/shops/saltmarsh/" + path, body, format="json", headers=headers)
    assert answer.status_code in (200, 201), (path, answer.content)
    return answer.json()
client = APIClient()
client.force_login(Member.objects.get().user)
kits = [kit["id"] for kit in asked("get", "kits")["items"]]
vehicle = asked("get", "customers?q=holloway")["items"][0]["vehicles"][0]["id"]
def sent():
    quote = asked("post", "quotes", {"kits": kits, "vehicle": vehicle})
    body = {"version": quote["version"], "recipient": "01632 960 417"}
    return asked("post", "quotes/%s/send" % quote["id"], body)
accepted, waiting = sent(), sent()
draft = asked("post", "quotes", {"kits": kits[:1], "vehicle": vehicle})
phone = APIClient()
page = phone.get(accepted["link"]["url"])["Location"]
html = phone.get(page).content.decode()
field = {name: html.split('name="%s" value="' % name)[1].split('"')[0] for name in ("issue", "digest")}
consents = [piece.split('"')[0] for piece in html.split('name="consent" value="')[1:]]
body = {**field, "name": "Anwen Holloway", "consent": consents, "answer": "accept"}
assert phone.post(page + "answer", body).status_code == 303
made = {name: asked("get", "quotes/%s" % id) for name, id in (
    ("accepted", accepted["quote"]["id"]), ("sent", waiting["quote"]["id"]), ("draft", draft["id"]))}
print(json.dumps({name: [quote["id"], quote["state"], quote["totals"]["gross"]] for name, quote in made.items()}))

"""
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
names = ("consumables", "customers", "operations", "templates", "rules", "quotes", "kits", "pull-lists")
print(json.dumps({name: client.get(f"/api/v1/shops/saltmarsh/{name}").status_code for name in names}))
"""
SOLD = """
import json
from django.test import Client
from quotes.models import Revision
from shop.models import Member
client = Client(headers={"host": "localhost"})
client.force_login(Member.objects.get().user)
ids = Revision.objects.values_list("quote", flat=True)
quotes = [client.get(f"/api/v1/shops/saltmarsh/quotes/{id}").json() for id in ids]
print(json.dumps({quote["id"]: [quote["id"], quote["state"], quote["totals"]["gross"]] for quote in quotes}))
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
    built = folder / "frontend" / "dist" / ".vite"
    built.mkdir(parents=True)
    (built / "manifest.json").write_text('{"index.html": {"css": ["assets/not-built.css"]}}', "utf-8")
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
        released("import", kind, f"fixtures/demo/{name}", "--shop", "saltmarsh")
    sold = last_line(released("shell", typed=SELL))
    before = last_line(released("shell", typed=COUNT))
    assert min(before.values()) > 0

    installation.manage("migrate", "-v", "0")
    assert last_line(installation.manage("shell", "-v", "0", "-c", COUNT)) == before
    answers = last_line(installation.manage("shell", "-v", "0", "-c", READ))
    assert set(answers.values()) == {200}, answers
    assert sorted(last_line(installation.manage("shell", "-v", "0", "-c", SOLD)).values()) == sorted(sold.values())


def last_line(output: str) -> dict[str, Any]:
    content: dict[str, Any] = json.loads(output.strip().splitlines()[-1])
    return content
