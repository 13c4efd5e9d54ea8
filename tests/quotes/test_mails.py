"""E-mails about a quote: what they hold, to whom they go, and when they are not sent any more."""

import hashlib
import json
import re
from typing import Any

import pytest
from django.core.mail import EmailMultiAlternatives

from quotes.models import Link, Revision
from shop.calc.snapshot import mark
from shop.models import Command, Customer, History, Outbox
from shop.outbox import worker
from shop.rows import uuid7
from shop.sealing import opened, seal
from tests.cast import Cast
from tests.client import CheckedClient
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

TO = "maren@mail.example"


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return stage.sent(stage.towing)


def ask(stage: Stage, sent: dict[str, Any], **changed: Any) -> Any:
    body = {"to": TO, "recipient": "Maren Oldacre", "digest": sent["quote"]["digest"]} | changed
    return stage.client.post(f"quotes/{sent['quote']['id']}/mails", body)


def decide(stage: Stage, sent: dict[str, Any], mail: dict[str, Any], decision: str) -> Any:
    return stage.client.post(f"quotes/{sent['quote']['id']}/mails/{mail['id']}/decision", {"decision": decision})


def listed(stage: Stage, sent: dict[str, Any]) -> dict[str, Any]:
    mails: dict[str, Any] = stage.client.get(f"quotes/{sent['quote']['id']}/mails").json()
    return mails


def only(mailoutbox: list[Any]) -> EmailMultiAlternatives:
    (message,) = mailoutbox
    return message  # type: ignore[no-any-return]


def address_in(text: str) -> str:
    (address,) = re.findall(r"http://testserver(/q/\S+)", text)
    return address


def html(message: EmailMultiAlternatives) -> str:
    ((written, kind),) = message.alternatives
    assert kind == "text/html"
    return str(written)


def test_the_link_in_it_opens_the_quote(stage: Stage, sent: dict[str, Any], mailoutbox: list[Any]) -> None:
    answer = ask(stage, sent)
    assert (answer.status_code, answer.json()["state"], answer.json()["words"]) == (
        201,
        "waiting",
        "waiting to be sent",
    )
    assert not mailoutbox
    worker.send_next()
    message = only(mailoutbox)
    assert message.to == [TO] and message.subject == "Your quote Q-1 from Saltmarsh Lane Motor Works"
    assert address_in(message.body) in html(message)
    phone = FormClient()
    page = phone.get(address_in(message.body), follow=True)
    assert page.status_code == 200 and sent["quote"]["mark"] in page.content.decode()


def test_it_tells_nobody_a_price_and_loads_nothing(stage: Stage, sent: dict[str, Any], mailoutbox: list[Any]) -> None:
    ask(stage, sent)
    worker.send_next()
    message = only(mailoutbox)
    gross = sent["quote"]["totals"]["gross"]
    for text in (message.body, html(message)):
        assert gross not in text and f"{float(gross):,.2f}" not in text
    assert not re.findall(r"<img|<link|<script|url\(|src=", html(message))


def test_its_secret_is_kept_nowhere(stage: Stage, sent: dict[str, Any], mailoutbox: list[Any]) -> None:
    ask(stage, sent)
    waiting = Outbox.objects.get().body["sealed"]
    worker.send_next()
    token = address_in(only(mailoutbox).body).rpartition("/")[2]
    rows = [
        *Outbox.objects.values_list("body", flat=True),
        *Command.objects.values_list("result", flat=True),
        *History.objects.values_list("changes", flat=True),
    ]
    assert token not in json.dumps(rows) and waiting not in json.dumps(rows)
    assert bytes.fromhex(waiting) not in token.encode()


def test_a_secret_is_opened_with_its_row_and_key_alone(settings: Any) -> None:
    token, row = "A" * 42 + "8", uuid7()
    sealed = seal(token, row)
    assert opened(sealed, row) == token
    assert opened(sealed, uuid7()) != token
    assert seal(token, uuid7()) != sealed
    settings.SECRET_KEY = "another"
    assert opened(sealed, row) != token


def test_another_secret_key_sends_no_dead_link(
    stage: Stage, sent: dict[str, Any], mailoutbox: list[Any], settings: Any
) -> None:
    ask(stage, sent)
    settings.SECRET_KEY = "another"
    worker.send_next()
    assert not mailoutbox and Outbox.objects.get().reason == "link_lost"


@pytest.mark.parametrize("late", ["withdraw", "replace", "cancel", "lapse"])
def test_a_link_that_leads_nowhere_is_not_sent(
    stage: Stage, sent: dict[str, Any], mailoutbox: list[Any], later: Any, late: str
) -> None:
    path, digest = f"quotes/{sent['quote']['id']}", sent["quote"]["digest"]
    ask(stage, sent)
    if late == "withdraw":
        stage.client.post(f"{path}/withdraw", {"revision": 1, "digest": digest})
    elif late == "replace":
        draft = stage.client.post(f"{path}/revise").json()
        stage.client.post(f"{path}/send", {"version": draft["version"], "recipient": "x"})
    elif late == "cancel":
        link = Outbox.objects.get().body["link"]
        assert stage.client.delete(f"{path}/links/{link}").status_code == 204
    else:
        later(days=15)
    worker.send_next()
    (mail,) = listed(stage, sent)["items"]
    why = "its link was cancelled first" if late == "cancel" else "the quote was withdrawn or replaced first"
    assert not mailoutbox and (mail["state"], mail["words"]) == ("cancelled", f"Not sent: {why}.")
    assert mail["decisions"] == []


def test_only_the_version_that_was_seen_is_sent(stage: Stage, sent: dict[str, Any]) -> None:
    assert ask(stage, sent, digest="0" * 64).json()["type"] == "/problems/not-sent"
    draft = stage.quote().json()
    answer = stage.client.post(f"quotes/{draft['id']}/mails", {"to": TO, "recipient": "x", "digest": ""})
    assert answer.status_code == 400
    assert not Outbox.objects.exists() and Link.objects.count() == 1


def test_a_quote_past_its_last_day_is_not_sent(stage: Stage, sent: dict[str, Any], later: Any) -> None:
    later(days=15)
    assert ask(stage, sent).status_code == 409
    assert not Outbox.objects.exists()


@pytest.mark.parametrize(
    "to",
    [
        "maren@mail.example\nBcc: all@mail.example",
        "maren@mail.example\r\n\r\nHello",
        "maren@mail.example, other@mail.example",
        "Maren <maren@mail.example>",
        "maren@mail.exam\u202eple",
        "ma\u200bren@mail.example",
        "maren",
        "",
        "m" * 250 + "@mail.example",
    ],
)
def test_an_address_that_is_more_than_an_address_is_refused(stage: Stage, sent: dict[str, Any], to: str) -> None:
    answer = ask(stage, sent, to=to)
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/to"
    assert not Outbox.objects.exists()


@pytest.mark.both
def test_what_people_typed_stays_text(stage: Stage, cast: Cast, mailoutbox: list[Any]) -> None:
    hostile = 'Ma\u202eren <b>"Bold"</b> =cmd()\u200b'
    cast.shop.name = 'Saltmarsh <i>Lane</i>, "Motor" Works'
    cast.shop.save()
    stage.vehicle.title = "T35 <script>alert(1)</script>"
    stage.vehicle.save()
    sent = stage.sent(stage.towing)
    ask(stage, sent, recipient=hostile)
    worker.send_next()
    message = only(mailoutbox)
    raw = message.message().as_bytes().decode()
    head = raw.partition("\n\n")[0]
    assert "Bcc" not in head and head.count("\nTo: ") == 1
    for text in (message.body, html(message), message.subject):
        assert "\u202e" not in text and "\u200b" not in text
    assert "<script" not in html(message) and "<b>" not in html(message) and "<i>" not in html(message)
    assert "&lt;script&gt;" in html(message) and "<script>" in message.body


def test_its_message_id_is_its_own_for_good(
    stage: Stage, sent: dict[str, Any], mailoutbox: list[Any], later: Any
) -> None:
    ask(stage, sent)
    worker.send_next()
    first = only(mailoutbox).extra_headers["Message-ID"]
    row = Outbox.objects.get()
    assert first == f"<{row.pk}@localhost>"
    ask(stage, sent)
    worker.send_next()
    assert mailoutbox[1].extra_headers["Message-ID"] != first


def test_what_may_have_been_sent_is_sent_again_as_it_was(
    stage: Stage, sent: dict[str, Any], mailoutbox: list[Any], later: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    mail = ask(stage, sent).json()

    def killed(row: Outbox, **_: Any) -> None:
        """The process ends between the server's reply and our note of it."""

    with monkeypatch.context() as patched:
        patched.setattr(worker.outbox, "finish", killed)
        worker.send_next()
    assert decide(stage, sent, mail, "again").status_code == 409
    later(minutes=6)
    (unsure,) = listed(stage, sent)["items"]
    assert (unsure["state"], unsure["decisions"]) == ("unsure", ["again", "arrived", "cancel"])
    assert not worker.send_next() and len(mailoutbox) == 1
    assert decide(stage, sent, mail, "again").json()["state"] == "waiting"
    worker.send_next()
    first, second = mailoutbox
    assert first.extra_headers["Message-ID"] == second.extra_headers["Message-ID"]
    assert first.body == second.body


def test_a_decision_is_kept_with_its_author(stage: Stage, sent: dict[str, Any]) -> None:
    mail = ask(stage, sent).json()
    assert mail["asked_by"] == "Advisor"
    assert decide(stage, sent, mail, "cancel").json()["words"] == "cancelled"
    assert decide(stage, sent, mail, "again").json()["type"] == "/problems/mail-moved"
    lines = History.objects.filter(subject="quote", verb__startswith="mail").order_by("id")
    assert [(line.verb, bool(line.author)) for line in lines] == [
        ("mail asked", True),
        ("mail cancelled", False),
        ("mail cancel", True),
    ]


def test_an_open_screen_learns_that_it_was_sent(stage: Stage, sent: dict[str, Any], mailoutbox: list[Any]) -> None:
    ask(stage, sent)
    before = stage.client.get("changes").json()["number"]
    worker.send_next()
    assert stage.client.get("changes").json()["number"] > before


def test_without_a_mail_server_the_counter_reads_that_nothing_was_sent(
    stage: Stage, sent: dict[str, Any], mailoutbox: list[Any]
) -> None:
    ask(stage, sent)
    worker.send_next()
    mails = listed(stage, sent)
    assert not mails["is_sent"] and mails["items"][0]["words"].startswith("not sent: no mail server is set")


def test_a_failure_is_told_with_the_servers_words(stage: Stage, sent: dict[str, Any]) -> None:
    ask(stage, sent)
    Outbox.objects.update(state="failed", tries=1, reason="recipient", reply="no such mailbox")
    (mail,) = listed(stage, sent)["items"]
    assert mail["words"] == "Could not be sent: the mail server refused the address (no such mailbox)."
    assert mail["decisions"] == ["again", "cancel"]


def accepted(stage: Stage, email: str = TO) -> Phone:
    Customer.objects.filter(pk=stage.customer.pk).update(email=email)
    phone = Phone(stage.sent(stage.towing)["link"]["url"])
    assert phone.answer().status_code == 303
    return phone


def test_an_acceptance_sends_the_receipt_with_the_paper(stage: Stage, mailoutbox: list[Any]) -> None:
    accepted(stage)
    worker.send_next()
    message, revision = only(mailoutbox), Revision.objects.get()
    assert message.to == [TO] and message.subject == "You accepted quote Q-1: Saltmarsh Lane Motor Works"
    assert "was accepted by Maren Oldacre on" in message.body and mark(revision.digest) in message.body
    (receipt, _, _), (name, paper, kind) = message.attachments
    assert (receipt, name, kind) == ("Q-1-1-accepted.pdf", "Q-1-1.pdf", "application/pdf")
    assert hashlib.sha256(bytes(paper)).hexdigest() == revision.pdf_sha256
    assert revision.gross is not None and f"{revision.gross:,.2f}" not in message.body
    (mail,) = listed(stage, {"quote": {"id": str(revision.quote_id)}})["items"]
    assert (mail["kind"], mail["asked_by"], mail["state"]) == ("receipt", None, "done")


def test_the_receipt_reminds_of_a_deposit(stage: Stage, mailoutbox: list[Any]) -> None:
    stage.enact({**RULES, "deposit_share": "0.5"})
    accepted(stage)
    worker.send_next()
    body = only(mailoutbox).body
    assert "Please pay the deposit: we order once we have it." in body and "nothing to do" not in body


def test_a_repeated_acceptance_sends_one_receipt(stage: Stage, mailoutbox: list[Any]) -> None:
    phone = accepted(stage)
    assert phone.answer().status_code == 303
    while worker.send_next():
        pass
    only(mailoutbox)


def test_no_receipt_is_sent_where_no_address_is_recorded_or_the_quote_is_declined(stage: Stage) -> None:
    accepted(stage, email="")
    Customer.objects.filter(pk=stage.customer.pk).update(email=TO)
    Phone(stage.sent(stage.turbo)["link"]["url"]).answer("decline")
    assert not Outbox.objects.exists()


@pytest.mark.parametrize(("email", "is_sent", "copy_comes"), [(TO, True, True), ("", True, False), (TO, False, False)])
def test_the_customer_reads_beforehand_whether_a_copy_comes(
    stage: Stage, settings: Any, email: str, is_sent: bool, copy_comes: bool
) -> None:
    settings.MAIL_IS_SENT = is_sent
    Customer.objects.filter(pk=stage.customer.pk).update(email=email)
    page = Phone(stage.sent(stage.towing)["link"]["url"]).html
    assert ("We send a copy to the e-mail address you gave us." in page) == copy_comes
    assert ("Save or print the next page as your copy." in page) != copy_comes
    assert TO not in page


def test_an_address_that_would_add_a_header_is_not_sent_to(stage: Stage, mailoutbox: list[Any]) -> None:
    accepted(stage, email="maren@mail.example\nBcc: all@mail.example")
    worker.send_next()
    row = Outbox.objects.get()
    assert not mailoutbox and (row.state, row.reason) == ("failed", "not_written")


def test_what_needs_a_person_stands_on_the_counter(stage: Stage, sent: dict[str, Any], cast: Cast) -> None:
    ask(stage, sent)
    assert stage.client.get("counter").json()["mails"] == []
    Outbox.objects.update(state="failed", reason="unreachable")
    (mail,) = stage.client.get("counter").json()["mails"]
    assert (mail["quote"], mail["number"], mail["customer"]) == (sent["quote"]["id"], "Q-1", "Maren Oldacre")
    assert mail["words"] == "Could not be sent: the mail server does not answer."
    elsewhere = CheckedClient(shop=cast.elsewhere.slug)
    elsewhere.force_login(cast.stranger.user)
    assert elsewhere.get("counter").json()["mails"] == []


def test_a_new_link_comes_with_a_ready_message(stage: Stage) -> None:
    sent = stage.sent(stage.towing)
    quote, url = sent["quote"], sent["link"]["url"]
    assert sent["link"]["message"] == (
        f"Hello 01632 960 417, here is our quote Q-1 for your {stage.vehicle.title}. Saltmarsh Lane Motor Works: {url}"
    )
    key = str(uuid7())
    first = stage.client.post(f"quotes/{quote['id']}/links", {"recipient": "Anwen"}, key=key).json()
    again = stage.client.post(f"quotes/{quote['id']}/links", {"recipient": "Anwen"}, key=key).json()
    assert first["url"] in first["message"] and first["message"].startswith("Hello Anwen,")
    assert again == first | {"url": None, "message": None}


def test_the_number_of_queries_does_not_grow(stage: Stage, sent: dict[str, Any]) -> None:
    path = f"quotes/{sent['quote']['id']}/mails"
    ask(stage, sent)
    few = queries(lambda: stage.client.get(path))
    for _ in range(5):
        ask(stage, sent)
    assert queries(lambda: stage.client.get(path)) == few
    Outbox.objects.update(state="failed", reason="unreachable")
    many = queries(lambda: stage.client.get("counter"))
    Outbox.objects.exclude(pk=Outbox.objects.latest("asked_at").pk).update(state="waiting")
    assert queries(lambda: stage.client.get("counter")) == many


def test_the_mail_of_one_quote_is_not_decided_at_another(stage: Stage, sent: dict[str, Any]) -> None:
    mail, other = ask(stage, sent).json(), stage.sent(stage.turbo)
    assert decide(stage, other, mail, "cancel").status_code == 404
    assert Outbox.objects.get().state == "waiting"
