"""The guided start: a step is done by what the shop has, and by nothing else."""

from datetime import date
from typing import Any

from kitting.models import Kit
from quotes.queries.start import start_steps
from shop.models import Calendar, Member, Operation, RuleSet, Shop
from shop.rule_presets import PRESETS
from shop.services.people import open_shop, set_member
from shop.services.rules import add_rules
from tests.cast import Cast
from tests.client import CheckedClient
from tests.quotes.stage import Stage

CODES = ["hours", "rates", "taxes", "people", "kit", "labour", "quote"]


def states(client: CheckedClient) -> dict[str, str]:
    return {step["code"]: step["state"] for step in client.get("start").json()["steps"]}


def empty_shop(cast: Cast) -> tuple[Shop, Member, CheckedClient]:
    shop, _ = open_shop(slug="empty", name="Empty", currency="EUR", zone="Europe/Vienna")
    member, _ = set_member(shop=shop, email="maude@empty.example", name="Maude", role="manager", password=None)
    client = CheckedClient(shop="empty")
    client.force_login(member.user)
    return shop, member, client


def test_each_step_is_done_by_what_the_shop_has(cast: Cast, stage: Stage) -> None:
    shop, member, client = empty_shop(cast)
    actor: Any = cast.acting("manager").__class__(shop=shop, member=member)
    add_rules(actor=actor, rules=PRESETS["trade"], valid_from=date(2026, 1, 1))
    assert states(client) == dict.fromkeys(CODES, "open") | {"hours": "next"}
    Calendar.objects.create(shop=shop, week={"mon": [["08:00", "12:00"]]})
    assert states(client)["hours"] == "done" and states(client)["rates"] == "next"
    rates = PRESETS["trade"] | {"labour_rates": {"mechanical": "99"}}
    add_rules(actor=actor, rules=rates, valid_from=date(2026, 1, 2))
    assert states(client)["rates"] == "done" and states(client)["taxes"] == "next"
    taxes = [PRESETS["trade"]["taxes"][0] | {"rate": "0.2"}]
    add_rules(actor=actor, rules=rates | {"taxes": taxes}, valid_from=date(2026, 1, 3))
    assert states(client)["taxes"] == "done" and states(client)["people"] == "next"
    second, _ = set_member(shop=shop, email="oda@empty.example", name="Oda", role="parts", password=None)
    assert states(client)["people"] == "done"
    Member.objects.filter(pk=second.pk).update(active=False)
    assert states(client)["people"] == "next", "a leaver is nobody to work with"
    kit = {"code": "B-1", "title": "Brakes", "price": "1240", "hours": "5.2"}
    assert client.post("kits", kit).status_code == 201
    Operation.objects.create(shop=shop, code="W-1", title="Wheels", skill="mechanical", book_hours="0.6")
    assert [states(client)[code] for code in ("kit", "labour", "quote")] == ["done", "done", "open"]
    customer = client.post("customers", {"name": "Ada Quill", "phone": "01632 960 401"}).json()["id"]
    vehicle = client.post("vehicles", {"customer": customer, "title": "Vell 2.4 coupe"}).json()["id"]
    parts = {"kits": [str(Kit.objects.get(shop=shop).pk)], "customer": customer, "vehicle": vehicle}
    draft = client.post("quotes", parts).json()
    assert states(client)["quote"] == "open", "a draft is not sent"
    sent = client.post(f"quotes/{draft['id']}/send", {"version": draft["version"], "recipient": "01632 960 417"})
    assert sent.status_code == 201, sent.content
    assert states(client)["quote"] == "done"


def test_a_step_is_left_for_later_and_taken_up_again(cast: Cast) -> None:
    shop, _, client = empty_shop(cast)
    assert client.put("start/hours", {"later": True}).status_code == 200
    assert states(client)["hours"] == "later" and states(client)["rates"] == "next"
    client.put("start/hours", {"later": True})
    assert Shop.objects.get(pk=shop.pk).later_steps == ["hours"]
    answer = client.put("start/hours", {"later": False}).json()
    assert answer["steps"][0]["state"] == "next" and answer["finished"] is False
    assert client.put("start/nothing", {"later": True}).status_code == 404


def test_a_step_that_is_done_is_done_though_it_was_left(cast: Cast) -> None:
    shop, _, client = empty_shop(cast)
    client.put("start/hours", {"later": True})
    Calendar.objects.create(shop=shop, week={"mon": [["08:00", "12:00"]]})
    assert states(client)["hours"] == "done"


def test_without_rules_rates_and_taxes_are_to_do(cast: Cast) -> None:
    shop, _, _ = empty_shop(cast)
    assert not RuleSet.objects.filter(shop=shop).exists()
    assert not any(step.done for step in start_steps(shop, date(2026, 11, 28)))
