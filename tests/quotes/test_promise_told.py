"""The promise date as the customer reads it: on the page, on acceptance, on the receipt."""

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from html import unescape
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import KitRevision, Offer
from quotes.documents.quote_pdf import paper_html
from quotes.models import Decision, Quote, Revision
from quotes.queries import frozen
from shop.models import Calendar, ClosedDay, Job, Operation, TemplateStep
from tests.costs import keys_of
from tests.factories import KitLineFactory
from tests.quotes import dated
from tests.quotes.dated import Clock, change, local, ready, send
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return send(stage, stage.quote().json())


@pytest.fixture
def phone(sent: dict[str, Any]) -> Phone:
    return Phone(sent["link"]["url"])


def test_the_customer_reads_a_half_day_and_what_it_waits_for(stage: Stage, phone: Phone) -> None:
    for phrase in (
        "<span>Expected ready Fri 11 Dec, afternoon</span>",
        "Please bring the vehicle on Thu 10 Dec by 08:00, when we open.",
        "<b>Expected ready Fri 11 Dec, afternoon. This is the date if you accept today.",
        "This date is an estimate.",
        "You accept",
        '<time datetime="2026-12-10">10 Dec<small>Thu</small></time>',
        "Due at the workshop by close: Towing kit",
        "You bring the vehicle by 08:00, when we open",
    ):
        assert phrase in phone.html
    section = phone.html.split('id="s-ready"')[1].split("</section>")[0]
    assert (
        "SETUP" not in section and "BUMPER" not in section and section.count(":00") == 2
    )  # no codes, and no minute but that of the opening
    assert phone.field("ready") == "2026-12-11 afternoon"


def test_the_day_on_the_page_is_the_one_of_today_and_names_the_vehicles_coming(stage: Stage, clock: Clock) -> None:
    draft = change(stage, stage.quote(stage.turbo).json(), here_from="2026-12-09")
    link = send(stage, draft)["link"]
    clock(local(3))
    html = Phone(link["url"]).html
    assert "Expected ready Wed 9 Dec, afternoon. This is the date if you accept today." in html
    assert "Please bring the vehicle on Wed 9 Dec by 08:00, when we open." in html


@pytest.mark.parametrize(
    ("minutes", "sentence"), [(30, ""), (720, "The vehicle stands for 12 h after this work: Front bumper off and on")]
)
def test_long_waits_are_told_and_short_ones_are_part_of_the_work(stage: Stage, minutes: int, sentence: str) -> None:
    Operation.objects.filter(code="BUMPER").update(wait_after=minutes)
    TemplateStep.objects.filter(operation__code="TURBO").update(after=["BUMPER"])
    draft = stage.quote(stage.turbo).json()
    assert any("to wait after Front bumper" in words for words in draft["promise"]["words"])
    html = Phone(send(stage, draft)["link"]["url"]).html
    assert ("The vehicle stands" in html) == bool(sentence) and sentence in html


def test_an_unknown_arrival_is_told_to_the_customer_too(stage: Stage) -> None:
    Offer.objects.exclude(part__in=[stage.turbo.part_id, stage.towing.part_id]).update(lead_days=None)
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    assert "No delivery date yet for engine oil, 5W-30. If it comes late, the date moves." in phone.html
    headline = "Expected ready Fri 11 Dec, afternoon; 1 part has no delivery date yet"
    assert phone.html.count(headline) == 2  # in the heading and beside the button
    answer = phone.answer(ready=phone.field("ready"))
    assert headline in phone.client.get(answer["Location"]).content.decode()
    assert headline in stage.client.get(f"quotes/{Quote.objects.get().pk}").json()["promise"]["headline"]


def test_yes_keeps_the_day_with_the_answer_and_the_receipt_says_it(stage: Stage, phone: Phone, clock: Clock) -> None:
    answer = phone.answer(ready=phone.field("ready"))
    assert answer.status_code == 303
    promise = Decision.objects.get().record["promise"]
    words = promise["told"]
    assert words["ready"] == {"day": "2026-12-11", "half": "afternoon", "words": "Fri 11 Dec, in the afternoon"}
    lines = [(line["weekday"], line["date"], line["words"]) for line in words["lines"]]
    assert ("Thu", "10 Dec", "Due at the workshop by close: Towing kit") in lines
    clock(local(20))
    receipt = phone.client.get(answer["Location"]).content.decode()
    assert "<span>Expected ready Fri 11 Dec, afternoon</span>" in receipt
    quote = stage.client.get(f"quotes/{Quote.objects.get().pk}").json()
    assert (quote["state"], ready(quote)) == ("accepted", "Fri 11 Dec, in the afternoon")
    assert not {key for key in keys_of(promise) if "cost" in key}


def test_a_day_that_moved_is_shown_before_the_yes_counts(stage: Stage, phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    clock(local(2))
    refused = phone.answer(ready=seen)
    phone.html = refused.content.decode()
    assert refused.status_code == 409 and not Decision.objects.exists() and not Job.objects.exists()
    assert Revision.objects.get().state == "sent"
    for phrase in ("The date has changed", "Fri 11 Dec, in the afternoon", "Mon 14 Dec, in the afternoon"):
        assert phrase in phone.html
    assert 'value="Maren Oldacre"' in phone.html and "checked" in phone.html
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    assert Decision.objects.get().record["promise"]["told"]["ready"]["day"] == "2026-12-14"


def test_a_moved_day_is_told_too_when_something_else_was_wrong(phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    clock(local(2))
    answer = phone.answer(ready=seen, name=" ")
    assert answer.status_code == 400
    html = answer.content.decode()
    assert "Type your full name" in html and "The date has changed" in html
    same = phone.answer(ready=phone_value(html), name=" ").content.decode()
    assert "Type your full name" in same and "The date has changed" not in same


def phone_value(html: str) -> str:
    return html.split('name="ready" value="')[1].split('"')[0]


def test_an_earlier_day_is_no_reason_to_ask_again(stage: Stage, phone: Phone) -> None:
    assert phone.answer(ready="2026-12-12 morning").status_code == 303
    assert Decision.objects.get().record["promise"]["told"]["ready"]["day"] == "2026-12-11"


@pytest.mark.parametrize("day", ["", "nonsense", "2026-12-01", "2026-12-01 noon", "x" * 4000])
def test_a_page_that_carries_no_day_is_not_compared(phone: Phone, day: str) -> None:
    assert phone.answer(ready=day).status_code == 303


def test_a_day_that_cannot_be_told_any_more_is_asked_about_before_the_yes_counts(stage: Stage, phone: Phone) -> None:
    seen = phone.field("ready")
    week = Calendar.objects.get().week
    Calendar.objects.update(week={})
    refused = phone.answer(ready=seen)
    phone.html = refused.content.decode()
    assert refused.status_code == 409 and not Decision.objects.exists()
    assert "Fri 11 Dec, in the afternoon" in phone.html and "We cannot give a date now" in phone.html
    assert phone.answer().status_code == 303  # the page that says so carries no day
    Calendar.objects.update(week=week)
    quote = stage.client.get(f"quotes/{Quote.objects.get().pk}").json()
    assert (quote["state"], quote["promise"]) == ("accepted", None)
    assert quote["no_promise"] == "No date: none could be given when the customer accepted."


def test_the_afternoon_is_later_than_the_morning(phone: Phone) -> None:
    assert phone.answer(ready="2026-12-11 morning").status_code == 409


def test_a_repeated_yes_gets_its_receipt_even_when_the_day_has_moved(phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    first = phone.answer(ready=seen)
    clock(local(2))
    assert phone.answer(ready=seen)["Location"] == first["Location"]


def test_a_no_needs_no_day(phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    clock(local(2))
    assert phone.answer("decline", ready=seen).status_code == 303
    assert Decision.objects.get().record["promise"] is None


def test_a_version_from_before_there_were_plans_shows_nothing_and_can_be_accepted(
    stage: Stage, sent: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    content = frozen.read(Revision.objects.get())
    del content["plan"]
    monkeypatch.setattr("quotes.queries.frozen.read", lambda revision: content)
    phone = Phone(sent["link"]["url"])
    assert "Expected ready" not in phone.html and 'name="ready"' not in phone.html
    assert stage.client.get(f"quotes/{sent['quote']['id']}").json()["promise"] is None
    assert phone.answer().status_code == 303
    assert "Expected ready" not in phone.client.get(f"{phone.page}receipt").content.decode()
    assert stage.client.get(f"quotes/{sent['quote']['id']}").json()["promise"] is None


def test_the_page_and_the_yes_ask_the_database_no_more_for_a_larger_quote(stage: Stage) -> None:
    def cost(act: Callable[[], Any], status: int) -> int:
        with CaptureQueriesContext(connection) as queries:
            assert act().status_code == status
        return len(queries)

    def page(phone: Phone) -> int:
        return cost(lambda: phone.client.get(phone.page), 200)

    # The first acceptance of a shop writes its change numbers; later ones only raise them.
    first = Phone(send(stage, stage.quote(stage.turbo).json())["link"]["url"])
    assert first.answer(ready=first.field("ready")).status_code == 303
    small = Phone(send(stage, stage.quote(stage.turbo).json())["link"]["url"])
    revision = KitRevision.objects.get(kit=stage.towing)
    for position in range(100, 130):
        wiring = Operation.objects.create(
            shop=stage.cast.shop, code=f"W{position}", title="Wire", skill="electrical", book_hours=Decimal(1)
        )
        KitLineFactory(shop=stage.cast.shop, revision=revision, position=position, operation=wiring)
    for days in range(30):
        ClosedDay.objects.create(shop=stage.cast.shop, date=date(2027, 1, 1) + timedelta(days=days))
    large = Phone(send(stage, stage.quote().json())["link"]["url"])
    assert page(large) == page(small)
    assert cost(lambda: large.answer(ready=large.field("ready")), 303) <= cost(
        lambda: small.answer(ready=small.field("ready")), 303
    )


def test_a_date_that_waits_for_a_deposit_says_so(stage: Stage) -> None:
    without = "It depends on when you accept and on a free bay."
    assert without in Phone(send(stage, stage.quote().json())["link"]["url"]).html
    stage.enact({**RULES, "deposit_share": "0.5"})
    sent = send(stage, stage.quote().json())
    phone = Phone(sent["link"]["url"])
    depends = "It depends on when you accept, on when we have the deposit, and on a free bay."
    paper = unescape(paper_html(Revision.objects.get(quote=sent["quote"]["id"]).snapshot))
    spoken = stage.client.get(f"quotes/{sent['quote']['id']}/spoken-answer").json()["prices"][0]["dates"]
    for words in (phone.html, paper, " ".join(spoken)):
        assert depends in words and without not in words
    receipt = phone.client.get(phone.answer(ready=phone.field("ready"))["Location"]).content.decode()
    assert "Please pay the deposit soon: we order once we have it, and the date moves if it comes later." in receipt
    assert "before that" not in receipt
