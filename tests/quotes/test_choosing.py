"""The customer chooses on the page without script, and accepts exactly one of the prices of the frozen text."""

from decimal import Decimal

import pytest

from kitting.models import PullLine
from quotes.models import Decision, Line, Revision
from quotes.queries import frozen, promise
from shop.models import Calendar, Job, JobOperation
from tests.quotes.choosing import Draft, pads_and_towing
from tests.quotes.dated import OPEN
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

FAST, TOWING, COATING = {"choice-0": "1"}, {"choice-1": "0"}, {"choice-1": "1"}


@pytest.fixture
def draft(stage: Stage) -> Draft:
    return pads_and_towing(stage)


@pytest.fixture
def phone(draft: Draft) -> Phone:
    return Phone(draft.send()["link"]["url"])


def page_of(phone: Phone, query: dict[str, object]) -> str:
    return str(phone.client.get(phone.page, {"show": "1", **query}).content.decode())


def total(html: str) -> str:
    return html.split("Accept for ")[1].split(" ")[0].replace(",", "")


def place(html: str) -> str:
    return html.split('name="price" value="')[1].split('"')[0]


def test_the_page_shows_the_choices_and_what_is_proposed(draft: Draft, phone: Phone) -> None:
    assert total(phone.html) == draft.now["totals"]["gross"] and place(phone.html) == "0"
    for phrase in ("Brake pads: take one", "Extras: take any, or none", "+84.00", "included", "Show total"):
        assert phrase in phone.html
    assert "<script" not in phone.html and "style=" not in phone.html and "As we sent it" not in phone.html


def test_show_total_shows_the_total_of_the_choices(draft: Draft, phone: Phone) -> None:
    html = page_of(phone, {"choice-0": "1", "choice-1": ["0", "1"]})
    both = draft.stage.quote().json()["totals"]["gross"]
    assert total(html) == str(Decimal(both) + 84 + 264)
    assert "As we sent it: " in html and "Brake pads: Fast-road pads" in html and "Towing kit" in html
    assert html.count(" checked") == 3


def test_each_price_that_is_read_out_names_its_options(draft: Draft) -> None:
    sent = draft.send()
    prices = draft.stage.client.get(f"quotes/{sent['quote']['id']}/spoken-answer").json()["prices"]
    words = [price["words"] for price in prices]
    assert len(set(words)) == len(words) == 12
    assert words[0].endswith("; Extras: none") and all("Brake pads: " in price for price in words)
    assert all(price["words"] in price["offer"] for price in prices)


@pytest.mark.parametrize(
    "query", [{"choice-0": "9"}, {"choice-0": "-1"}, {"choice-0": ["0", "1"]}, {"choice-9": "1"}, {"choice-1": "x"}]
)
def test_an_address_that_asks_for_nothing_known_shows_what_is_proposed(phone: Phone, query: dict[str, object]) -> None:
    assert place(page_of(phone, query)) == "0"


def test_looking_writes_nothing(phone: Phone) -> None:
    before = Revision.objects.values().get()
    page_of(phone, FAST)
    assert Revision.objects.values().get() == before and not Decision.objects.exists()


def test_what_is_accepted_is_one_selection(draft: Draft, phone: Phone) -> None:
    html = page_of(phone, FAST | TOWING)
    assert phone.answer(price=place(html)).status_code == 303
    decision, revision = Decision.objects.get(), Revision.objects.get()
    assert str(revision.agreed) == decision.record["gross"] + "0" == total(html) + "0"
    assert [(option["choice"], option["option"]) for option in decision.record["options"]] == [
        ("Brake pads", "Fast-road pads"),
        ("Extras", "Towing kit, fitted"),
    ]
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert "Brake pads: Fast-road pads" in receipt and "Extras: Towing kit, fitted" in receipt
    (quote,) = draft.stage.client.get("quotes").json()["items"]
    choices = draft.stage.client.get(f"quotes/{quote['id']}").json()["choices"]
    taken = [option["title"] for choice in choices for option in choice["options"] if option["taken"]]
    assert taken == ["Fast-road pads", "Towing kit, fitted"], "not what was proposed"


@pytest.mark.parametrize("query", [{}, TOWING])
def test_job_and_pull_list_hold_what_was_accepted_and_no_more(phone: Phone, query: dict[str, object]) -> None:
    assert phone.answer(price=place(page_of(phone, query))).status_code == 303
    codes = set(JobOperation.objects.filter(job=Job.objects.get()).values_list("code", flat=True))
    assert ("WIRING" in codes) == bool(query)
    assert PullLine.objects.filter(kind__in=["box", "beside"]).count() == (8 if query else 4)


@pytest.mark.parametrize("price", ["", "24", "999", "-1", "x"])
def test_a_price_that_the_text_does_not_hold_is_refused(phone: Phone, price: str) -> None:
    assert phone.answer(price=price).status_code == 400
    assert not Decision.objects.exists() and Revision.objects.get().state == "sent"


def test_a_refused_answer_keeps_the_choices(phone: Phone) -> None:
    html = page_of(phone, FAST)
    refused = phone.answer(price=place(html), name=" ")
    assert refused.status_code == 400 and total(refused.content.decode()) == total(html)


def test_both_the_vehicle_and_the_options_are_asked(stage: Stage) -> None:
    draft = pads_and_towing(open_gearbox(stage))
    phone = Phone(draft.send()["link"]["url"])
    html = page_of(phone, FAST)
    values = [part.split('"')[0] for part in html.split('type="radio" name="price" value="')[1:]]
    assert len(values) == 3 and values[-1] == "unknown"
    unknown = phone.answer(price="unknown", shown=values[0]).content.decode()
    assert 'name="choice-0" value="1" checked' in unknown
    assert phone.answer(price=values[1]).status_code == 303
    content = frozen.read(Revision.objects.get())
    assert dict(content["vehicle"]["attributes"])["transmission"] == "automatic"
    assert [extra["title"] for extra in content["shown"]["extras"]] == ["Fast-road pads"]


def test_every_document_of_the_text_adds_up(draft: Draft, phone: Phone) -> None:
    revision = Revision.objects.get()
    for at, price in enumerate(frozen.read(revision)["possible"]):
        content = frozen.opened(revision.snapshot, at)
        assert frozen.gross_of(content) == content["shown"]["totals"]["gross"]
        assert frozen.selection_of(content) == price["selection"]


def test_lines_of_the_text_are_written_once(draft: Draft, phone: Phone) -> None:
    snapshot = Revision.objects.get().snapshot
    assert len(frozen.opened(snapshot)["possible"]) == 12
    for line in Line.objects.filter(kind="text"):
        assert snapshot.count(f'"line":"{line.pk}"') == 1


def test_the_workshop_sees_the_margin_of_the_accepted_selection(draft: Draft, phone: Phone) -> None:
    assert draft.stage.client.get(f"{draft.path}/margin").status_code == 200
    html = page_of(phone, TOWING)
    phone.answer(price=place(html))
    margin = draft.stage.client.get(f"{draft.path}/margin").json()
    assert Decimal(margin["revenue"]) == Decimal(draft.stage.client.get(draft.path).json()["totals"]["net"])
    assert draft.stage.client.get(draft.path).json()["answer"]["options"] == [
        "Brake pads: Road pads",
        "Extras: Towing kit, fitted",
    ]


def test_a_page_that_is_read_again_works_out_no_date_again(draft: Draft, monkeypatch: pytest.MonkeyPatch) -> None:
    Calendar.objects.create(shop=draft.stage.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    phone, query = Phone(draft.send()["link"]["url"]), {"choice-0": "1", "choice-1": ["0", "1"]}
    before = page_of(phone, dict(query))
    assert "Expected ready" in before

    def never(*_: object) -> None:
        raise AssertionError("worked out again")

    monkeypatch.setattr(promise, "visit", never)
    assert page_of(phone, dict(query)).split("<form")[0] == before.split("<form")[0]
