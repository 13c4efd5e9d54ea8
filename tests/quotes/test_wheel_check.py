"""A quote whose work takes wheels off names the distance after which their fasteners are checked again."""

import html
from datetime import date
from typing import Any

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from shop.models import Job, Operation, RuleSet
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

TOLD = "Wheels come off for this work. Have the torque of the wheel fasteners checked after 30 miles."
FOLLOW_UP = "Wheels came off: tell the customer to have the torque of the wheel fasteners checked after 30 miles."


@pytest.fixture
def stage(stage: Stage) -> Stage:
    rules: dict[str, Any] = {**RULES, "wheel_check": "30 miles"}
    stage.enact(rules)
    return stage


def paper() -> str:
    return html.unescape(paper_html(Revision.objects.get().snapshot))


def test_page_paper_receipt_and_job_say_so_once(stage: Stage) -> None:
    Operation.objects.filter(code__in=["BUMPER", "SETUP"]).update(wheels_off=True)
    phone = Phone(stage.sent()["link"]["url"])
    Operation.objects.update(wheels_off=False)  # the job follows what was sold
    assert phone.html.count(TOLD) == paper().count(TOLD) == 1
    phone.answer()
    assert phone.client.get(f"{phone.page}receipt").content.decode().count(TOLD) == 1
    job = stage.cast.signed_in("technician").get(f"jobs/{Job.objects.get().pk}").json()
    assert job["follow_ups"] == [{"code": "wheel_check", "words": FOLLOW_UP}]


def test_where_no_wheel_comes_off_nothing_is_said(stage: Stage) -> None:
    phone = Phone(stage.sent()["link"]["url"])
    phone.answer()
    assert "wheel" not in phone.html and "wheel" not in paper()
    assert stage.client.get(f"jobs/{Job.objects.get().pk}").json()["follow_ups"] == []


def test_a_workshop_without_a_distance_says_none(stage: Stage) -> None:
    Operation.objects.filter(code="BUMPER").update(wheels_off=True)
    RuleSet.objects.create(shop=stage.cast.shop, number=3, valid_from=date(2026, 1, 3), rules=RULES)
    assert "wheel" not in Phone(stage.sent()["link"]["url"]).html
