"""The consents of an acceptance, required and optional, and the orders and work that follow it."""

import html
import json
import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from quotes.models import Decision, Link, Revision
from quotes.queries.pricing import shop_day
from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from shop.documents.context import context
from shop.models import Job
from shop.presenters.dates import day_words
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

CONSENTS = [
    {"code": "road", "text": "I have read what this may mean for road use.", "kind": "required"},
    {"code": "early", "text": "Please begin within the withdrawal period.", "kind": "begin_within_withdrawal"},
    {"code": "photos", "text": "You may take photographs.", "kind": "optional", "without": "Without it we take none."},
]
ALL = tuple(consent["code"] for consent in CONSENTS)
WORDS: dict[str, Any] = {
    **RULES["words"],
    "consents": CONSENTS,
    "withdrawal": ["You may withdraw without giving a reason: write to us or call."],
    "not_included": ["Fasteners that break when they are undone."],
}
FAIR: dict[str, Any] = {
    **RULES,
    "words": WORDS,
    "withdrawal": {"days": 14},
    "ceiling": {"kind": "percent", "share": "0.10"},
}


def with_rules(stage: Stage, rules: dict[str, Any]) -> Phone:
    stage.enact(rules)
    return Phone(stage.sent()["link"]["url"])


@pytest.fixture
def phone(stage: Stage) -> Phone:
    return with_rules(stage, FAIR)


def receipt_of(phone: Phone) -> str:
    return html.unescape(phone.client.get(f"{phone.page}receipt").content.decode())


def in_days(stage: Stage, days: int) -> date:
    return shop_day(stage.cast.shop, timezone.now()) + timedelta(days=days)


def test_an_acceptance_counts_without_the_waiver_and_nothing_begins_in_the_period(stage: Stage, phone: Phone) -> None:
    assert phone.answer(consent=("road",)).status_code == 303
    first = in_days(stage, 15)  # 14 days from the day after acceptance, the last of which is still the customer's
    job = Job.objects.get()
    record = Decision.objects.get().record
    assert job.not_before == first and record["not_before"] == first.isoformat()
    assert [consent["code"] for consent in record["consents"]] == ["road"]
    answer = stage.client.get(f"quotes/{Revision.objects.get().quote_id}").json()["answer"]
    sentence = f"Work starts after {day_words(in_days(stage, 14))}: no consent to begin earlier."
    assert answer["waits"] == f"{sentence} Nothing is ordered until then."
    assert answer["consents"] == ["I have read what this may mean for road use."]
    assert f"start no work before {day_words(first)}" in receipt_of(phone)
    assert f"The withdrawal period lasts until the end of {day_words(in_days(stage, 14))}." in receipt_of(phone)
    waiting = f"Nothing is ordered or begun before {day_words(first)}: withdrawal period."
    reach = stage.client.get(f"jobs/{job.pk}/readiness").json()
    assert (reach["verdict"], reach["sentence"], reach["not_before"]) == ("hold", waiting, first.isoformat())
    orders = stage.client.get(f"pull-lists/{reach['list']['id']}/orders").json()
    assert orders["not_before"] == waiting and orders["suppliers"]


def test_no_date_is_spoken_of_where_none_is_given(phone: Phone) -> None:
    assert "We cannot give a date yet" in phone.html and "This date applies only" not in phone.html


def test_who_asks_for_it_has_the_work_begun_at_once(stage: Stage, phone: Phone) -> None:
    assert phone.answer(consent=("road", "early")).status_code == 303
    assert Job.objects.get().not_before is None
    answer = stage.client.get(f"quotes/{Revision.objects.get().quote_id}").json()["answer"]
    assert answer["waits"] is None and answer["consents"][1] == "Please begin within the withdrawal period."
    reach = stage.client.get(f"jobs/{Job.objects.get().pk}/readiness").json()
    assert reach["not_before"] is None and "withdrawal" not in reach["sentence"]


def test_a_quote_from_before_there_were_kinds_is_read_as_it_was(stage: Stage, phone: Phone) -> None:
    """The text as it was frozen then: consents of code and text, and no word of withdrawal."""
    revision = Revision.objects.get()
    snapshot = json.loads(revision.snapshot)
    for name in ("withdrawal", "not_included", "ceiling", "retention_years"):
        del snapshot["rules"][name]
    snapshot["rules"]["consents"] = [{"code": consent["code"], "text": consent["text"]} for consent in CONSENTS]
    snapshot["shop"] = {name: snapshot["shop"][name] for name in ("name", "phone", "currency", "exponent", "zone")}
    answer = _answer_to(phone, snapshot, consents=("road",))
    assert {fault.at for fault in answer["faults"]} == {"consent-early", "consent-photos"}
    assert answer["withdrawal"] == [] and answer["not_included"] == []


def _answer_to(phone: Phone, content: dict[str, Any], consents: tuple[str, ...]) -> Any:
    """The facts of the page for an answer to this frozen text, which the database keeps from being put in place."""
    from quotes.calc.answer import AcceptanceError
    from quotes.calc.consents import first_day, missing_consents
    from quotes.presenters.acceptance_form import form_text
    from quotes.presenters.customer import presented
    from quotes.presenters.promise import Dates

    assert first_day(content["rules"], consents, date(2026, 11, 26)) is None
    refused = AcceptanceError("incomplete", consents=missing_consents(content["rules"], consents))
    return context(presented(content, ""), form_text(content, Dates(), "", consents, refused))


def test_a_consent_to_begin_early_needs_a_withdrawal_period() -> None:
    Rules.from_json(FAIR)
    with pytest.raises(CalculationError):
        Rules.from_json({**FAIR, "withdrawal": {"days": 0}})
    with pytest.raises(CalculationError):
        Rules.from_json({name: value for name, value in FAIR.items() if name != "withdrawal"})


def test_every_fault_is_told_at_once_beside_its_field_and_ticks_are_kept(phone: Phone) -> None:
    answer = phone.answer(name=" ", consent=("photos",))
    page = html.unescape(answer.content.decode())
    assert answer.status_code == 400 and not Decision.objects.exists()
    assert '<a href="#name">Type your full name' in page and '<a href="#consent-road">Please tick' in page
    assert 'id="name-bad"' in page and 'id="consent-road-bad"' in page and 'id="consent-early-bad"' not in page
    assert 'value="photos" checked' in page and 'value="road" checked' not in page


def test_each_consent_says_whether_it_is_required_and_what_happens_without(stage: Stage, phone: Phone) -> None:
    page = html.unescape(phone.html)
    assert "<b>required</b>: I have read" in page and "<b>optional</b>: Please begin" in page
    assert "Without it we take none." in page
    assert f"Without it we order nothing and start no work before {day_words(in_days(stage, 15))}" in page
    assert " checked" not in page


def test_what_is_recorded_is_said_before_and_kept_with_the_answer(stage: Stage, phone: Phone) -> None:
    phrases = [
        f"I am the owner of this vehicle ({stage.vehicle.title}) or may order this work on it.",
        "With your answer we record your name, the time, your internet address, your browser, your ticks and the words "
        f"on this page. {stage.cast.shop.name} keeps this record for 7 years.",
    ]
    form = html.unescape(phone.html).split('id="s-accept"')[1].split("</form")[0]
    in_sight = re.sub(r"<details.*?</details>", "", form, flags=re.DOTALL).split('value="accept"')[0]
    assert all(phrase in in_sight for phrase in phrases) and "get a copy" not in phone.html.casefold()
    phone.answer()
    assert Decision.objects.get().record["words"] == phrases


def test_the_right_to_withdraw_and_what_is_left_out_stand_before_the_answer(phone: Phone) -> None:
    before = html.unescape(phone.html).split("<form")[0]
    for phrase in (
        "You may withdraw without giving a reason",
        "The withdrawal period is 14 days, counted from the day after you accept.",
        "Fasteners that break when they are undone.",
        "We ask you before extra work takes the total more than 10 % above this quote.",
    ):
        assert phrase in before


def test_a_refusal_needs_a_name_as_well(phone: Phone) -> None:
    answer = phone.answer("decline", name=" ", consent=())
    assert answer.status_code == 400 and 'id="name-bad"' in answer.content.decode()
    assert not Decision.objects.exists() and Revision.objects.get().state == "sent"


def test_a_declined_receipt_prints_no_consent(phone: Phone) -> None:
    assert phone.answer("decline", consent=("road", "early")).status_code == 303
    assert Decision.objects.get().record["consents"] == []
    receipt = receipt_of(phone)
    assert "I have read what this may mean" not in receipt and "What you agreed to" not in receipt


def test_the_receipt_holds_terms_cautions_telephone_and_who_we_are(stage: Stage) -> None:
    shop = stage.cast.shop
    shop.phone, shop.address, shop.registration = "01632 960 400", "4 Saltmarsh Lane", "Register 17"
    shop.email, shop.tax_number = "desk@saltmarsh.example", "T-9"
    shop.save()
    phone = with_rules(stage, FAIR)
    phone.answer()
    for page in (html.unescape(phone.html), receipt_of(phone)):
        for phrase in ("4 Saltmarsh Lane", "Register 17", "desk@saltmarsh.example", "T-9", "01632 960 400"):
            assert phrase in page
    for phrase in (
        "Removed parts are yours.",
        "More power may matter",
        "call us: 01632\u00a0960\u00a0400",
        "Fasteners that break",
    ):
        assert phrase in receipt_of(phone)


@pytest.mark.parametrize("name", ["\u200b", "\u3164", "\u202e", "12", "...", "a\x07b", "Ma\nren", "\ufe0f"])
def test_a_name_needs_a_letter_and_no_control_character(phone: Phone, name: str) -> None:
    answer = phone.answer(name=name, consent=ALL)
    assert answer.status_code == 400 and 'id="name-bad"' in answer.content.decode()
    assert not Decision.objects.exists()


@pytest.mark.parametrize(
    ("name", "clean"),
    [
        ("Ma\u202eren  Old\u200bacre", "Maren Oldacre"),
        ("\u0645\u0631\u064a\u0645", "\u0645\u0631\u064a\u0645"),
        ("\u5c0f\u6797", "\u5c0f\u6797"),
    ],
)
def test_a_name_of_any_script_is_kept_without_what_cannot_be_seen(phone: Phone, name: str, clean: str) -> None:
    assert phone.answer(name=name, consent=ALL).status_code == 303
    assert Decision.objects.get().record["name"] == clean


def test_every_dead_link_of_a_shop_shows_the_same_page_with_its_telephone(stage: Stage, phone: Phone) -> None:
    shop = stage.cast.shop
    shop.phone = "01632 960 400"
    shop.save()
    link = Link.objects.get()
    guess = FormClient().get(f"/q/{link.pk}/{'x' * 43}")
    bare = FormClient().get(f"/q/{link.pk}/")
    Link.objects.update(revoked_at=link.made_at)
    pages = [guess, bare, FormClient().get(phone.url), phone.client.get(phone.page)]
    assert {page.status_code for page in pages} == {410} and len({page.content for page in pages}) == 1
    assert "01632 960 400" in guess.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/q/", "/q/nothing", f"/q/{'0' * 8}-0000-7000-8000-{'0' * 12}/abc"])
def test_an_address_of_no_link_says_whom_to_call(path: str) -> None:
    answer = FormClient().get(path)
    assert answer.status_code == 410 and "call the workshop that sent it" in answer.content.decode()


@pytest.mark.parametrize(
    ("title", "status", "clean"),
    [("Boost\u202e gauge\u200b", 201, "Boost gauge"), ("\u202e", 400, None), ("Boost\ngauge", 400, None)],
)
def test_a_typed_line_reaches_the_customer_without_what_cannot_be_seen(
    stage: Stage, title: str, status: int, clean: str | None
) -> None:
    quote = stage.quote().json()
    body = {"kind": "text", "title": title, "quantity": "1", "unit_price": "10.00", "tax_class": "part"}
    answer = stage.client.post(f"quotes/{quote['id']}/lines", body)
    assert answer.status_code == status, answer.content
    extras = stage.client.get(f"quotes/{quote['id']}").json()["extras"]
    assert [extra["title"] for extra in extras] == ([clean] if clean else [])


def test_a_customer_s_name_is_kept_without_what_cannot_be_seen(stage: Stage) -> None:
    answer = stage.client.post("customers", {"name": "Maren\u202e Old\u200bacre"})
    assert (answer.status_code, answer.json()["name"]) == (201, "Maren Oldacre")
    assert stage.client.post("customers", {"name": "Maren\x07"}).status_code == 400


@pytest.mark.paper
def test_the_paper_says_what_the_page_says_of_the_withdrawal(stage: Stage, phone: Phone) -> None:
    from io import BytesIO

    from pypdf import PdfReader

    paper = phone.client.get(f"{phone.page}paper")
    data = b"".join(paper.streaming_content) if paper.streaming else paper.content
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages).split())
    for phrase in (
        "Your right to withdraw",
        "required: I have read",
        "optional: Please begin within",
        "Fasteners that break",
        "or may order this work",
        "Saltmarsh Lane Motor Works",
    ):
        assert phrase in text
