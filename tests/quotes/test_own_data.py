"""A manager changes what customers read of the shop; what was sent keeps the data of its time."""

import json
from typing import Any

import pytest

from quotes.models import Revision
from shop.models import History
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

NEW = {
    "name": "Saltmarsh Lane Fitting",
    "address": "3 Quay Row",
    "phone": "01632 960 500",
    "email": "desk@saltmarsh.example",
    "registration": "Register of Saltmarsh 417",
    "tax_number": "",
}


def frozen_shop(quote: dict[str, Any]) -> dict[str, Any]:
    shop: dict[str, Any] = json.loads(Revision.objects.get(quote=quote["id"]).snapshot)["shop"]
    return shop


def test_the_next_quote_has_the_new_data_and_a_sent_one_keeps_its_own(stage: Stage) -> None:
    manager = stage.cast.signed_in("manager")
    before = manager.get("own-data").json()
    first = stage.sent()["quote"]
    answer = manager.put("own-data", NEW)
    assert (answer.status_code, answer.json()) == (200, before | NEW), answer.content
    second = stage.sent()["quote"]
    assert (frozen_shop(first)["name"], frozen_shop(second)["name"]) == (before["name"], NEW["name"])
    assert frozen_shop(second)["phone"] == NEW["phone"]
    record = History.objects.get(subject="shop", verb="changed")
    assert record.changes["name"] == [before["name"], NEW["name"]]


def test_it_refuses_a_shop_without_a_name_and_records_no_change_where_there_is_none(stage: Stage) -> None:
    manager = stage.cast.signed_in("manager")
    assert manager.put("own-data", NEW | {"name": " "}).json()["errors"][0]["pointer"] == "/name"
    assert manager.put("own-data", NEW | {"phone": "1\u0007"}).status_code == 400
    assert manager.put("own-data", NEW).status_code == manager.put("own-data", NEW).status_code == 200
    assert History.objects.filter(subject="shop").count() == 1
