"""Hostile text in the fields of a draft and after an acceptance: kept as text and escaped, or refused there."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from html import escape
from typing import Any

import pytest
from django.utils import timezone

from quotes.queries.pricing import shop_day
from shop.models import Calendar, Customer, Job
from shop.outbox import worker
from tests.api.asked import upload
from tests.calc.test_pictures import jpeg
from tests.quotes.contingent import STUD, add
from tests.quotes.dated import OPEN
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_deposit import ask
from tests.quotes.test_outside import FILE

pytestmark = pytest.mark.once

KEPT = {
    "formula": '=HYPERLINK("http://example.invalid","pay") \u0628\u0631\u063a\u064a \N{WRENCH}\N{GRINNING FACE}',
    "markup": """{{ x }}{% debug %}<script>alert(1)</script><img src=x onerror="alert(2)">'""",
}  # a field may hold one text: the page is looked at with the last
HIDDEN, VISIBLE = "A\u200bB\ufeff C\u202egpj.exe", "AB Cgpj.exe"
SITE = "http://testserver"
REFUSED = {"control": "bell \x07", "lines": "one\ntwo", "long": "x" * 10_000}


@dataclass
class Opened:
    """A job with a deposit, outside work and a line that is charged only if it happens."""

    stage: Stage
    job: Job
    quote: dict[str, Any]
    link: str
    draft: dict[str, Any] = field(default_factory=dict)

    @property
    def today(self) -> date:
        return shop_day(self.stage.shop, timezone.now())

    def post(self, path: str, **body: Any) -> Any:
        return self.stage.client.post(f"jobs/{self.job.pk}/{path}", body)

    def change_draft(self, method: str, path: str = "", **body: Any) -> Any:
        """The answer to a change of a draft of its own."""
        self.draft = self.draft or self.stage.quote().json()
        seen = {} if method == "post" else {"seen": f'"{self.draft["version"]}"'}
        call = getattr(self.stage.client, method)
        answer = call(f"quotes/{self.draft['id']}{path}", body, **seen)
        self.draft = answer.json() if answer.status_code < 300 else self.draft
        return answer

    def patch(self, **changes: Any) -> Any:
        return self.change_draft("patch", **changes)

    def override(self, because: str) -> Any:
        self.draft = self.draft or self.stage.quote().json()
        return self.change_draft("put", f"/overrides/{self.draft['kits'][0]['key']}", value="900.00", because=because)

    def caption(self, text: str) -> Any:
        self.draft = self.draft or self.stage.quote().json()
        if self.draft["photographs"]:
            return self.change_draft("patch", f"/photographs/{self.draft['photographs'][0]['id']}", caption=text)
        path = f"quotes/{self.draft['id']}/lines/{self.draft['kits'][0]['line']}/photographs"
        form = {"file": upload(jpeg()), "caption": text, "seen_by": "customer"}
        answer = self.stage.client.post(path, form, format="multipart")
        self.draft = answer.json() if answer.status_code < 300 else self.draft
        return answer

    def discount(self, because: str) -> Any:
        return self.change_draft("put", "/discount", percent="5", amount=None, because=because)

    def choice(self, title: str) -> Any:
        self.draft = self.draft or self.stage.quote().json()
        if self.draft["choices"]:
            return self.change_draft("patch", f"/choices/{self.draft['choices'][0]['id']}", title=title)
        options = [{"title": "With", "lines": [self.draft["kits"][0]["line"]]}, {"title": "Without"}]
        return self.change_draft("post", "/choices", title=title, take="one", options=options)

    def firm(self, name: str) -> Any:
        return self.change_draft("post", "/outside", **FILE | {"starts_after": "", "firm": name})

    def pay(self, **facts: Any) -> Any:
        body = {"amount": "40.00", "received_on": self.today.isoformat(), "means": "card"} | facts
        return self.post("payments", **body)

    def outside(self, **facts: Any) -> Any:
        (work,) = self.stage.client.get(f"jobs/{self.job.pk}/outside").json()["items"]
        if work["state"] == "sent":  # by the text before
            self.post(
                "outside", work=work["work"], kind="undone", entry=work["undo"], happened_on=self.today.isoformat()
            )
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
    "a photograph's caption": ("/caption", Opened.caption),
    "why a price is our own": ("/because", Opened.override),
    "why there is a discount": ("/because", Opened.discount),
    "a firm that we do not know yet": ("/firm", Opened.firm),
    "a choice": ("/title", Opened.choice),
    "our note": ("/note", lambda opened, text: opened.patch(note=text)),
    "a note to the customer": ("/customer_note", lambda opened, text: opened.patch(customer_note=text)),
}


READ = {
    *("a told date", "a photograph's caption", "why there is a discount", "a choice", "a note to the customer"),
    "a firm that we do not know yet",
}
"""The forms whose text the customer reads."""


def texts_in(value: Any) -> list[str]:
    """Every text of an answer."""
    if isinstance(value, dict):
        return [text for inner in value.values() for text in texts_in(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in texts_in(inner)]
    return [value] if isinstance(value, str) else []


def pages(opened: Opened) -> str:
    """All that the customer reads on the link, and would read of the draft."""
    phone = Phone(opened.link)
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    draft = opened.stage.client.get(f"quotes/{opened.draft['id']}/as-customer") if opened.draft else None
    return str(phone.html + receipt + (draft.content.decode() if draft else ""))


@pytest.mark.parametrize("form", FORMS)
def test_it_is_kept_as_it_was_typed_and_never_becomes_markup_or_is_refused_at_its_field(
    opened: Opened, form: str
) -> None:
    """Characters that nobody sees are removed; text that cannot be stored is refused at its field."""
    pointer, submit = FORMS[form]
    if form == "why money went back":
        opened.pay(amount="400.00")
    for name, text in REFUSED.items():
        answer = submit(opened, text)
        assert answer.status_code == 400, (name, answer.content)
        assert [fault["pointer"] for fault in answer.json()["errors"]] == [pointer], name
    once = form == "why a job is called off"
    if not once:
        answer = submit(opened, HIDDEN)
        assert answer.status_code < 300, answer.content
        texts = texts_in(answer.json())
        assert any(VISIBLE in part for part in texts)
        assert not any("\u200b" in part or "\u202e" in part for part in texts)
    for name, text in KEPT.items():
        if once and name != "markup":
            continue
        answer = submit(opened, text)
        assert answer.status_code < 300, (name, answer.content)
        assert any(text in part for part in texts_in(answer.json())), name
    read = pages(opened)
    assert "<script>alert" not in read and 'onerror="' not in read
    assert (escape(KEPT["markup"]) in read) == (form in READ), form


@pytest.mark.parametrize("kind", [*KEPT, "hidden", "long"])
def test_what_the_customer_types_on_the_link_stays_text(stage: Stage, kind: str) -> None:
    """Name, reason and question: on the receipt, at the counter, in its lists and in the record."""
    text = HIDDEN if kind == "hidden" else KEPT.get(kind, "x" * 10_000)
    visible = VISIBLE if kind == "hidden" else text
    sent = stage.sent()
    phone = Phone(sent["link"]["url"])
    form = {"question": text[:1000], "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    assert phone.client.post(f"{phone.page}question", form, headers={"Origin": SITE}).status_code == 303
    assert phone.answer("decline", name=text, consent=(), reason=text[:1000]).status_code == 303
    quote = stage.client.get(f"quotes/{sent['quote']['id']}").json()
    row = stage.client.get("counter").json()["answers"][0]
    name, reason, question = quote["answer"]["name"], quote["answer"]["reason"], quote["questions"][0]["text"]
    assert (name, question) == (visible[:120].strip(), visible[:1000]) and reason and visible.startswith(reason)
    assert row["id"] == quote["id"]
    page, receipt = (phone.client.get(phone.page + path).content.decode() for path in ("", "receipt"))
    assert escape(name) in receipt and escape(reason) in receipt and escape(question) in page
    assert not any(mark in page + receipt for mark in ("<script>alert", 'onerror="', "\u200b", "\u202e", "\ufeff"))


@pytest.mark.parametrize("kind", [*KEPT, "hidden"])
def test_what_we_reply_to_a_question_stays_text(stage: Stage, kind: str, mailoutbox: list[Any]) -> None:
    """On the page and the receipt, at the counter, and in the e-mail that brings it."""
    Customer.objects.update(email="maren@mail.example")
    text = HIDDEN if kind == "hidden" else KEPT[kind]
    visible = VISIBLE if kind == "hidden" else text
    sent = stage.sent()
    phone = Phone(sent["link"]["url"])
    form = {"question": "Is it loud?", "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    assert phone.client.post(f"{phone.page}question", form, headers={"Origin": SITE}).status_code == 303
    path = f"quotes/{sent['quote']['id']}"
    reply = f"{path}/questions/{stage.client.get(path).json()['questions'][0]['id']}/reply"
    for refused in (REFUSED["control"], REFUSED["long"], "\u200b"):
        answer = stage.client.post(reply, {"reply": refused})
        assert [fault["pointer"] for fault in answer.json()["errors"]] == ["/reply"], refused
    assert stage.client.post(reply, {"reply": f"{text}\n{text}"}).status_code == 201
    assert stage.client.get(path).json()["questions"][0]["reply"] == f"{visible}\n{visible}"
    phone.answer("decline")
    read = "".join(phone.client.get(phone.page + part).content.decode() for part in ("", "receipt"))
    assert read.count(f"<p>{escape(visible)}</p>") == 4
    assert not any(mark in read for mark in ("<script>alert", 'onerror="', "\u200b", "\u202e", "\ufeff"))
    while worker.send_next():
        pass
    (message,) = [message for message in mailoutbox if message.to == ["maren@mail.example"]]
    assert message.body.count(visible) == 2 and "\n" not in message.subject
    assert not any(mark in message.body for mark in ("\u200b", "\u202e", "\ufeff"))
    for html, _ in message.alternatives:
        assert html.count(escape(visible)) == 2 and "<script>alert" not in html and 'onerror="' not in html


def test_no_cell_of_a_months_money_is_a_formula(opened: Opened) -> None:
    opened.pay(reference=KEPT["formula"])
    opened.pay(reference="@SUM(A1)")
    opened.pay(reference="+1+1", amount="41.00")
    text = opened.stage.client.get("money", {"month": opened.today.isoformat()[:7]}).content.decode()
    cells = [cell.strip('"') for line in text.splitlines() for cell in line.split(",")]
    assert "'@SUM(A1)" in cells and "'+1+1" in cells
    assert not [cell for cell in cells if cell[:1] in "=@" and cell] and "\"'=HYPERLINK" in text
