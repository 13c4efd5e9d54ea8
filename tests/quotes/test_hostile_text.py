"""Hostile text in every field of the forms that follow an acceptance: kept as text and escaped, or refused there."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from html import escape
from typing import Any

import pytest
from django.utils import timezone

from quotes.queries.pricing import shop_day
from shop.models import Calendar, Job
from tests.quotes.contingent import STUD, add
from tests.quotes.dated import OPEN
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_deposit import ask
from tests.quotes.test_outside import FILE

pytestmark = pytest.mark.once

KEPT = {
    "html": """<script>alert(1)</script><img src=x onerror="alert(2)">'""",
    "formula": '=HYPERLINK("http://example.invalid","pay here")',
    "template": "{{ settings.SECRET_KEY }}{% debug %}",
    "arabic": "\u0628\u0631\u063a\u064a \u0645\u0643\u0633\u0648\u0631",
    "emoji": "\N{WRENCH} done \N{GRINNING FACE}",
}
TIDIED = {"invisible": ("A\u200bB\ufeff C", "AB C"), "turned around": ("A\u202egpj.exe", "Agpj.exe")}
REFUSED = {"control": "bell \x07", "lines": "one\ntwo", "long": "x" * 10_000}


@dataclass
class Opened:
    """A job with a deposit, outside work and a line that is charged only if it happens."""

    stage: Stage
    job: Job
    quote: dict[str, Any]
    link: str

    @property
    def today(self) -> date:
        return shop_day(self.stage.shop, timezone.now())

    def post(self, path: str, **body: Any) -> Any:
        return self.stage.client.post(f"jobs/{self.job.pk}/{path}", body)

    def patch(self, **changes: Any) -> Any:
        draft = self.stage.quote().json()
        return self.stage.client.patch(f"quotes/{draft['id']}", changes, seen=f'"{draft["version"]}"')

    def pay(self, **facts: Any) -> Any:
        body = {"amount": "40.00", "received_on": self.today.isoformat(), "means": "card"} | facts
        return self.post("payments", **body)

    def outside(self, **facts: Any) -> Any:
        (work,) = self.stage.client.get(f"jobs/{self.job.pk}/outside").json()["items"]
        if work["state"] == "sent":  # by the text before
            self.post("outside", work=work["work"], kind="undone", happened_on=self.today.isoformat())
        return self.post("outside", work=work["work"], kind="sent", happened_on=self.today.isoformat(), **facts)

    def change(self, table: str, **facts: Any) -> Any:
        change = self.post("changes").json()
        line = {"title": "Bracket made", "unit_price": "90.00", "tax_class": "part"}
        return self.stage.client.post(f"quotes/{change['id']}/{table}", line | facts)

    def reverse(self, reason: str) -> Any:
        payment = self.pay().json()["payments"][-1]["id"]
        return self.post(f"payments/{payment}/reversal", reason=reason)


@pytest.fixture
def opened(stage: Stage) -> Opened:
    quote, link = stage.as_before(_opened)
    return Opened(stage, Job.objects.get(), quote, link)


def _opened(stage: Stage, _: Any) -> tuple[dict[str, Any], str]:
    """(the accepted quote, a link to it)"""
    ask(stage)
    Calendar.objects.create(shop=stage.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    draft = stage.quote().json()
    add(stage, draft["id"], **STUD)
    draft = stage.client.post(f"quotes/{draft['id']}/outside", FILE | {"starts_after": ""}).json()
    body = {"version": draft["version"], "recipient": "Maren", "below_floor": True}
    sent = stage.client.post(f"quotes/{draft['id']}/send", body).json()
    phone = Phone(sent["link"]["url"])
    assert phone.answer().status_code == 303, phone.html
    link = stage.client.post(f"quotes/{draft['id']}/links", {"recipient": "Maren"}).json()["url"]
    return stage.client.get(f"quotes/{draft['id']}").json(), link


def happened(opened: Opened, text: str) -> Any:
    return opened.post("occurrences", line=opened.quote["contingencies"][0]["line"], count=1, note=text)


def returned(opened: Opened, text: str) -> Any:
    return opened.post("core-returns", title=text, amount="40.00", returned_on=opened.today.isoformat())


def told(opened: Opened, text: str) -> Any:
    return opened.post("told-dates", ready_on=None, half="morning", words=text, means="phone")


def contingency(opened: Opened, text: str) -> Any:
    return opened.change("contingencies", event=text, quantity="1", cap=1)


FORMS: dict[str, tuple[str, Callable[[Opened, str], Any]]] = {
    "the reference of a payment": ("/reference", lambda opened, text: opened.pay(reference=text)),
    "why money went back": ("/reason", lambda opened, text: opened.pay(reason=text, back=True)),
    "why a payment was wrong": ("/reason", Opened.reverse),
    "an old part": ("/title", returned),
    "what happened": ("/note", happened),
    "a firm's reference": ("/reference", lambda opened, text: opened.outside(reference=text)),
    "whom one spoke to": ("/note", lambda opened, text: opened.outside(note=text)),
    "a told date": ("/words", told),
    "a line of a change": ("/title", lambda opened, text: opened.change("lines", kind="text", title=text)),
    "what may happen": ("/event", contingency),
    "why a job is called off": ("/because", lambda opened, text: opened.post("call-off", because=text)),
    "our note": ("/note", lambda opened, text: opened.patch(note=text)),
    "a note to the customer": ("/customer_note", lambda opened, text: opened.patch(customer_note=text)),
}


def texts_in(value: Any) -> list[str]:
    """Every text of an answer."""
    if isinstance(value, dict):
        return [text for inner in value.values() for text in texts_in(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in texts_in(inner)]
    return [value] if isinstance(value, str) else []


def pages(opened: Opened) -> str:
    """All that the customer reads on the link."""
    phone = Phone(opened.link)
    return phone.html + str(phone.client.get(f"{phone.page}receipt").content.decode())


@pytest.mark.parametrize("form", FORMS)
def test_it_is_kept_as_it_was_typed_and_never_becomes_markup(opened: Opened, form: str) -> None:
    _, submit = FORMS[form]
    if form == "why money went back":
        opened.pay(amount="400.00")
    for name, text in KEPT.items():
        if form == "why a job is called off" and name != "html":
            continue  # once
        answer = submit(opened, text)
        assert answer.status_code < 300, (name, answer.content)
        assert any(text in field for field in texts_in(answer.json())), name
        assert "<script>" not in pages(opened) and 'onerror="' not in pages(opened), name


def test_what_the_customer_reads_of_it_is_escaped(opened: Opened) -> None:
    assert told(opened, KEPT["html"]).status_code == 201
    assert escape(KEPT["html"]) in pages(opened)


@pytest.mark.parametrize("form", FORMS)
def test_what_cannot_be_seen_is_taken_out(opened: Opened, form: str) -> None:
    _, submit = FORMS[form]
    if form == "why money went back":
        opened.pay(amount="400.00")
    for name, (text, visible) in TIDIED.items():
        if form == "why a job is called off" and name != "invisible":
            continue
        answer = submit(opened, text)
        assert answer.status_code < 300, (name, answer.content)
        assert any(visible in field for field in texts_in(answer.json())), name
        assert not any("\u200b" in field or "\u202e" in field for field in texts_in(answer.json())), name


@pytest.mark.parametrize("form", FORMS)
def test_what_cannot_be_kept_is_refused_at_its_field(opened: Opened, form: str) -> None:
    pointer, submit = FORMS[form]
    if form == "why money went back":
        opened.pay(amount="400.00")
    for name, text in REFUSED.items():
        answer = submit(opened, text)
        assert answer.status_code == 400, (name, answer.content)
        assert [fault["pointer"] for fault in answer.json()["errors"]] == [pointer], name


def test_no_cell_of_a_months_money_is_a_formula(opened: Opened) -> None:
    opened.pay(reference=KEPT["formula"])
    opened.pay(reference="@SUM(A1)")
    opened.pay(reference="+1+1", amount="41.00")
    text = opened.stage.client.get("money", {"month": opened.today.isoformat()[:7]}).content.decode()
    cells = [cell.strip('"') for line in text.splitlines() for cell in line.split(",")]
    assert "'@SUM(A1)" in cells and "'+1+1" in cells
    assert not [cell for cell in cells if cell[:1] in "=@" and cell] and "\"'=HYPERLINK" in text
