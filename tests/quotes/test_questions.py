"""Questions from the link, which reach the counter, and the replies, which appear on the link's page."""

import html
from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from quotes.models import Link, Question, Quote
from quotes.services.questions import QuestionError, ask
from shop.models import Customer, Outbox, Shop
from shop.outbox import worker
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return stage.sent()


@pytest.fixture
def phone(sent: dict[str, Any]) -> Phone:
    return Phone(sent["link"]["url"])


def asks(phone: Phone, text: str) -> Any:
    body = {"question": text, "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    return phone.client.post(f"{phone.page}question", body, headers={"Origin": "http://testserver"})


def page_of(phone: Phone, path: str = "") -> str:
    return html.unescape(phone.client.get(f"{phone.page}{path}").content.decode())


def replies(stage: Stage, question: Question, text: str = "Yes, the day after.") -> Any:
    return stage.client.post(f"quotes/{question.quote_id}/questions/{question.pk}/reply", {"reply": text})


def test_a_question_reaches_the_counter_and_its_reply_the_page(stage: Stage, phone: Phone) -> None:
    answer = asks(phone, "Can I bring it\r\non Saturday?")
    assert (answer.status_code, answer["Location"]) == (303, f"{phone.page}#asked")
    assert "on Saturday?" in page_of(phone) and "We have not replied yet" in page_of(phone)
    questions = stage.client.get("counter").json()["asked"]
    assert [(item["number"], item["text"]) for item in questions] == [("Q-1", "Can I bring it\non Saturday?")]
    question = Question.objects.get()
    assert replies(stage, question).status_code == 201
    assert "Yes, the day after." in page_of(phone) and "We have not replied yet" not in page_of(phone)
    assert stage.client.get("counter").json()["asked"] == []
    reply = stage.client.get(f"quotes/{question.quote_id}").json()["questions"][0]
    assert (reply["recipient"], reply["replied_by"]) == ("01632 960 417", "Advisor")


def test_a_reply_is_given_once(stage: Stage, phone: Phone) -> None:
    asks(phone, "Is it loud?")
    question = Question.objects.get()
    replies(stage, question, "No.")
    second = replies(stage, question, "Yes.")
    assert (second.status_code, second.json()["type"]) == (409, "/problems/already-replied")
    assert Question.objects.get().reply == "No."
    asks(phone, "Is it red?")
    assert replies(stage, Question.objects.get(replied_at=None), "\u200b").status_code == 400


def test_a_question_of_another_quote_is_not_found(stage: Stage, phone: Phone) -> None:
    asks(phone, "Is it loud?")
    other = stage.quote(stage.towing).json()["id"]
    path = f"quotes/{other}/questions/{Question.objects.get().pk}/reply"
    assert stage.client.post(path, {"reply": "No."}).status_code == 404


@pytest.mark.parametrize(
    ("text", "status"), [("", 400), (" \u200b ", 400), ("a\x07b", 400), ("x" * 1001, 400), ("x" * 1000, 303)]
)
def test_a_question_has_letters_and_a_thousand_characters_at_most(phone: Phone, text: str, status: int) -> None:
    answer = asks(phone, text)
    assert answer.status_code == status
    assert Question.objects.exists() == (status == 303)
    if len(text) > 1000:
        assert "more than 1,000 characters" in answer.content.decode() and text in answer.content.decode()


def test_a_question_is_plain_text_without_what_cannot_be_seen(phone: Phone) -> None:
    asks(phone, "<b>Loud</b>\u202e =1+1")
    assert Question.objects.get().text == "<b>Loud</b> =1+1"
    assert "&lt;b&gt;Loud&lt;/b&gt;" in phone.client.get(phone.page).content.decode()


def test_a_question_sent_again_is_one_question(phone: Phone) -> None:
    for _ in range(3):
        assert asks(phone, "Is it loud?").status_code == 303
    assert Question.objects.count() == 1


def test_five_come_within_ten_minutes_and_ten_are_open(stage: Stage, phone: Phone) -> None:
    for n in range(5):
        assert asks(phone, f"Question {n}?").status_code == 303
    assert asks(phone, "And another?").status_code == 429
    now, link = timezone.now() + timedelta(minutes=11), Link.objects.get()
    for n in range(5, 10):
        ask(link=link, text=f"Question {n}?", site="", now=now)
    with pytest.raises(QuestionError) as refused:
        ask(link=link, text="And another?", site="", now=now + timedelta(minutes=11))
    assert refused.value.code == "too_many"
    replies(stage, Question.objects.order_by("asked_at")[0])
    ask(link=link, text="And another?", site="", now=now + timedelta(minutes=11))


def test_a_cancelled_or_expired_link_asks_nothing(phone: Phone) -> None:
    link = Link.objects.get()
    with pytest.raises(QuestionError):
        ask(link=link, text="Is it loud?", site="", now=link.expires_at + timedelta(seconds=1))
    Link.objects.update(revoked_at=timezone.now())
    with pytest.raises(QuestionError):
        ask(link=link, text="Is it loud?", site="", now=timezone.now())
    assert asks(phone, "Is it loud?").status_code == 410 and not Question.objects.exists()


def test_whoever_accepted_still_asks_from_the_receipt(phone: Phone) -> None:
    phone.answer()
    assert 'name="question"' in page_of(phone, "receipt")
    assert asks(phone, "When do I bring it?").status_code == 303
    assert "When do I bring it?" in page_of(phone) and "When do I bring it?" in page_of(phone, "receipt")


@pytest.mark.both
def test_the_database_keeps_question_and_reply_as_they_were(stage: Stage, phone: Phone) -> None:
    asks(phone, "Is it loud?")
    replies(stage, Question.objects.get())
    for change in ({"text": "Is it red?"}, {"reply": "Maybe."}):
        with pytest.raises(IntegrityError), transaction.atomic():
            Question.objects.update(**change)
    facts = {"shop": stage.shop, "quote": Quote.objects.get(), "link": Link.objects.get(), "asked_at": timezone.now()}
    with pytest.raises(IntegrityError), transaction.atomic():
        Question.objects.create(**facts, text="Is it red?", reply="Yes.")


def test_question_and_reply_go_by_mail_once_each(stage: Stage, phone: Phone, mailoutbox: list[Any]) -> None:
    asks(phone, "Is it red?")
    replies(stage, Question.objects.get(), "No.")
    assert not Outbox.objects.exists()  # neither has an address
    Shop.objects.update(email="desk@saltmarsh.example")
    Customer.objects.update(email="maren@mail.example")
    for _ in range(2):
        asks(phone, "Is it <b>loud</b>?\nAt night?")
    worker.send_next()
    question = Question.objects.get(replied_at=None)
    screen = f"http://testserver/saltmarsh/counter/quote/{question.quote_id}#question-{question.pk}"
    assert "comes by e-mail" not in page_of(phone)  # no mail server is set up
    replies(stage, question, "No.\nNot at all.")
    while worker.send_next():
        pass
    to_desk, to_customer = mailoutbox
    assert (to_desk.to, to_desk.subject) == (["desk@saltmarsh.example"], "Question about quote Q-1: Maren Oldacre")
    assert screen in to_desk.body and "Is it <b>loud</b>?\n\nAt night?" in to_desk.body
    assert "<b>loud" not in to_desk.alternatives[0][0] and "&lt;b&gt;loud" in to_desk.alternatives[0][0]
    assert to_customer.to == ["maren@mail.example"] and to_customer.reply_to == ["desk@saltmarsh.example"]
    assert "At night?\n\nOur reply:\n\nNo.\n\nNot at all." in to_customer.body
    mails = stage.client.get(f"quotes/{question.quote_id}/mails").json()["items"]
    assert [(mail["kind"], mail["asked_by"]) for mail in mails] == [("question", None), ("reply", "Advisor")]


def test_a_question_that_had_its_reply_is_not_mailed(
    stage: Stage, phone: Phone, mailoutbox: list[Any], settings: Any
) -> None:
    settings.MAIL_IS_SENT = True
    Customer.objects.update(email="maren@mail.example")
    Shop.objects.update(email="desk@saltmarsh.example")
    asks(phone, "Is it loud?")
    assert "The reply appears on this page, and comes by e-mail." in page_of(phone)
    replies(stage, Question.objects.get(), "No.")
    while worker.send_next():
        pass
    assert [message.to for message in mailoutbox] == [["maren@mail.example"]]
    assert Outbox.objects.get(kind="question").reason == "replied"
