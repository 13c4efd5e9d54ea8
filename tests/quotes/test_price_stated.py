"""The customer says which of several prices is theirs, and the acceptance is of that one."""

from decimal import Decimal
from html import unescape

import pytest

from kitting.models import Kit, PullLine
from quotes.documents.quote_pdf import paper_html
from quotes.models import Decision, Revision
from quotes.queries import frozen
from shop.models import History, Job, Vehicle
from tests.quotes.open_gearbox import only, open_gearbox, step
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_outside import NAME, add

pytestmark = pytest.mark.once

MANUAL, AUTOMATIC = "3,273.38", "3,570.38"  # 3,207.38 and 0.4 h, or 2.2 h, at 165.00


@pytest.fixture
def gearbox(stage: Stage) -> Stage:
    return open_gearbox(stage)


@pytest.fixture
def phone(gearbox: Stage) -> Phone:
    return Phone(gearbox.sent()["link"]["url"])


def test_both_totals_stand_in_the_first_sheet_and_neither_is_chosen(phone: Phone) -> None:
    head = phone.html.split('id="s-kits"')[0]
    assert f'manual</th><td class="money">{MANUAL}' in head.replace("\n", "") and "Total with tax" in head
    assert AUTOMATIC in head and "Not recorded: gearbox." in head
    form = phone.html.split('id="accept"')[1]
    assert form.count('type="radio"') == 3 and "I do not know" in form and "checked" not in form
    assert "Still to be decided" not in phone.html


def test_the_lines_of_the_other_price_stand_where_they_differ(phone: Phone) -> None:
    differs = phone.html.split("What differs: automatic")[1].split("</table>")[0]
    assert "Cooler work" in differs and "Clutch work" in differs and "Turbocharger fitted" not in differs


def test_the_acceptance_is_of_the_price_that_was_stated(gearbox: Stage, phone: Phone) -> None:
    assert phone.answer(price="1").status_code == 303
    record = Decision.objects.get().record
    assert (record["gross"], record["stated"]) == (AUTOMATIC.replace(",", ""), [["transmission", "automatic"]])
    codes = set(Job.objects.get().operations.values_list("code", flat=True))
    assert "COOLER" in codes and "CLUTCH" not in codes
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert f"for {AUTOMATIC} EUR" in receipt and "You said: automatic" in receipt and MANUAL not in receipt
    quote = gearbox.client.get(f"quotes/{Revision.objects.get().quote_id}").json()
    assert quote["totals"]["gross"] == AUTOMATIC.replace(",", "") and quote["undecided"] is None
    assert quote["answer"]["price"] == "automatic"
    (row,) = gearbox.client.get("quotes").json()["items"]
    assert row["gross"] == AUTOMATIC.replace(",", "")


@pytest.mark.parametrize(("price", "total"), [("0", "3,964.98"), ("1", "4,261.98")])
def test_another_firms_work_is_in_every_price(gearbox: Stage, price: str, total: str) -> None:
    """691.60 more than each: 480 x 1.175 + 12.33, with 20 % tax. The text keeps the line with each price."""
    quote = add(gearbox, gearbox.quote().json())
    body = {"version": quote["version"], "recipient": "x", "below_floor": True}
    phone = Phone(gearbox.client.post(f"quotes/{quote['id']}/send", body).json()["link"]["url"])
    text = Revision.objects.get().snapshot
    first, second = (possible["document"]["shown"] for possible in frozen.opened(text)["possible"])
    assert [line["name"] for line in first["outside"]] == [NAME] and second["outside"] == first["outside"]
    assert unescape(paper_html(text)).count(NAME) == 1
    assert phone.answer(price=price).status_code == 303
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert f"for {total} EUR" in receipt and "691.60" in receipt
    assert any(NAME in str(sheet) for sheet in Job.objects.get().operations.values_list("sheet", flat=True))


def test_the_parts_of_the_box_follow_it(gearbox: Stage, phone: Phone) -> None:
    phone.answer(price="1")
    taken = PullLine.objects.filter(kind="box", kit="BI-T").count()
    beside = PullLine.objects.filter(kind="beside", kit="BI-T").count()
    assert (taken, beside) == (3, 1)  # of four, one is for the manual gearbox alone


def test_what_was_stated_is_written_to_the_vehicle_with_its_history(gearbox: Stage, phone: Phone) -> None:
    phone.answer(price="1")
    vehicle = Vehicle.objects.get(pk=gearbox.vehicle.pk)
    assert vehicle.attributes == {"transmission": "automatic"} and vehicle.version == gearbox.vehicle.version + 1
    line = History.objects.filter(subject_id=vehicle.pk).latest("recorded_at")
    assert line.changes == {"attributes": [{}, {"transmission": "automatic"}]} and line.author_id is None


@pytest.mark.parametrize(
    ("fields", "words"), [({}, "Say which is yours"), ({"price": "unknown"}, "Call us, and we will find")]
)
def test_without_a_price_nothing_is_agreed(gearbox: Stage, phone: Phone, fields: dict, words: str) -> None:
    answer = phone.answer(**fields)
    html = unescape(answer.content.decode())
    assert answer.status_code == 400 and words in html and gearbox.cast.shop.phone in html
    assert not Decision.objects.exists() and Revision.objects.get().state == "sent"
    assert Vehicle.objects.get(pk=gearbox.vehicle.pk).attributes == {}


@pytest.mark.parametrize("price", ["2", "99", "-1", "x", "²"])
def test_a_price_that_is_not_there_is_none(gearbox: Stage, phone: Phone, price: str) -> None:
    assert phone.answer(price=price).status_code == 400
    assert not Decision.objects.exists()


def test_a_price_under_which_a_kit_does_not_fit_cannot_be_accepted(gearbox: Stage) -> None:
    Kit.objects.filter(pk=gearbox.towing.pk).update(fits=only("transmission", "automatic"))
    phone = Phone(gearbox.sent()["link"]["url"])
    assert "Does not fit: Towing kit" in phone.html and phone.html.count("disabled") == 1
    answer = phone.answer(price="1")
    assert answer.status_code == 409 and not Decision.objects.exists()
    assert phone.answer(price="0").status_code == 303


def test_what_was_recorded_since_is_chosen_beforehand_and_cannot_be_contradicted(gearbox: Stage, phone: Phone) -> None:
    Vehicle.objects.filter(pk=gearbox.vehicle.pk).update(attributes={"transmission": "automatic"})
    again = phone.client.get(phone.page).content.decode()
    assert 'value="1" checked' in again and 'value="0" checked' not in again
    answer = phone.answer(price="0")
    assert answer.status_code == 409 and "something else on record" in answer.content.decode()
    assert not Decision.objects.exists()
    assert phone.answer(price="1").status_code == 303


def test_a_refused_answer_keeps_what_was_chosen(phone: Phone) -> None:
    assert 'value="1" checked' in phone.answer(price="1", name="").content.decode()


def test_declining_needs_no_price(phone: Phone) -> None:
    assert phone.answer(answer="decline").status_code == 303
    assert Decision.objects.get().record["stated"] == []


def test_two_attributes_make_four_prices(gearbox: Stage) -> None:
    step(gearbox, "SENSOR", "0.30", only("wear_sensor", "yes"), kit="QF-T")
    phone = Phone(gearbox.sent()["link"]["url"])
    for words in ("manual, without wear sensor", "manual, with wear sensor", "automatic, with wear sensor"):
        assert words in phone.html
    assert phone.answer(price="3").status_code == 303
    stated = {"transmission": "automatic", "wear_sensor": "yes"}
    assert Vehicle.objects.get(pk=gearbox.vehicle.pk).attributes == stated


def test_the_frozen_text_recomputes_for_each_price(gearbox: Stage) -> None:
    gearbox.sent()
    text = Revision.objects.get().snapshot
    for place, gross in enumerate((MANUAL, AUTOMATIC)):
        content = frozen.opened(text, place)
        assert frozen.gross_of(content) == content["shown"]["totals"]["gross"] == gross.replace(",", "")
    assert text.count('"number":"OIL-5"') == 1  # a line that both prices have is written once


def test_the_margin_is_that_of_the_accepted_price(gearbox: Stage, phone: Phone) -> None:
    quote = f"quotes/{Revision.objects.get().quote_id}"
    manual = gearbox.client.get(f"{quote}/margin").json()
    phone.answer(price="1")
    automatic = gearbox.client.get(f"{quote}/margin").json()
    assert Decimal(automatic["cost"]) - Decimal(manual["cost"]) == Decimal("108.00")  # 1.8 h at 60


def test_the_paper_has_both_totals_at_its_head_and_a_tick_for_each(gearbox: Stage) -> None:
    gearbox.sent()
    html = paper_html(Revision.objects.get().snapshot)
    head, foot = html.split("<h2>What it costs</h2>")[0], html.split('class="perf"')[1]
    for answers in (MANUAL, AUTOMATIC):
        assert answers in head and answers in foot
    assert foot.count('class="tick"') == 3  # a consent and two prices
