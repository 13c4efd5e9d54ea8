"""The paper of a quote: its first page is the whole answer, and a quote of three kits takes three pages."""

import io
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.utils import timezone
from pypdf import PdfReader

from shop.models import Customer, RuleSet, Shop, Vehicle
from shop.presenters.dates import day_words
from tests.browser.test_how import advisor_of, make_copperfell, make_saltmarsh, quoted
from tests.demo import KITS
from tests.quotes.changing import begin, job_of, text_line
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.paper

CALIBRATION = {
    "title": "Calibration",
    "firm": "Lathe & Lambda",
    "cost": "620.00",
    "markup": "0.15",
    "tax_class": "outside work",
    "days": 3,
    "starts_after": "TC-01",
    "needed_by": "TC-23",
    "warranty": "they warrant the file, we warrant loading it",
}


def pages_of(client: Any, quote: dict[str, Any]) -> list[str]:
    """The text of each page of the quote's paper, once it is sent."""
    body = {"version": quote["version"], "recipient": "01632 960 417", "below_floor": True}
    sent = client.post(f"quotes/{quote['id']}/send", body)
    assert sent.status_code == 201, sent.content
    paper = client.get(f"quotes/{quote['id']}/paper").content
    return [page.extract_text() for page in PdfReader(io.BytesIO(paper)).pages]


def test_the_workshops_address_leaves_the_heading_its_room(stage: Stage) -> None:
    """A long registration stood on one line and pressed "Additional work authorisation Q-2" into four."""
    Shop.objects.update(
        address="4 Saltmarsh Lane, Wendlow",
        registration="Invented register of Wendlow, 4417 k",
        tax_number="INVENTED 0417",
        email="desk@saltmarsh.example",
    )
    pages = pages_of(stage.client, text_line(stage, begin(stage, job_of(stage))))
    lines = [line.strip() for line in pages[0].splitlines()]
    assert "Additional work" in lines and "authorisation Q-2" in lines, lines[:12]
    assert any(line.startswith("Version 1 of") and line[-4:].isdigit() for line in lines), lines[:12]


def discounted(client: Any, quote: dict[str, Any]) -> Any:
    discount = {"amount": "250.00", "because": "Second job with us this year"}
    return client.put(f"quotes/{quote['id']}/discount", discount, seen=f'"{quote["version"]}"').json()


@pytest.mark.parametrize("day", [28, 29])
def test_three_kits_take_three_pages_and_lose_nothing(db: None, monkeypatch: pytest.MonkeyPatch, day: int) -> None:
    """Two prices, another firm's work, a discount and a withdrawal period: as long as the paper gets.

    On the second day the vehicle stands for glue and sealant twice, which takes four lines more.
    """
    monkeypatch.setattr(timezone, "now", lambda: datetime(2026, 11, day, 10, tzinfo=UTC))
    make_saltmarsh()
    client = advisor_of("saltmarsh")
    vehicle = Vehicle.objects.get(customer__name="Anwen Holloway")
    vehicle.attributes.pop("transmission")
    vehicle.save(update_fields=["attributes"])
    kits = [kit["id"] for kit in client.get("kits").json()["items"]]
    draft = client.post("quotes", {"kits": kits, "vehicle": str(vehicle.pk)}).json()
    draft = discounted(client, client.post(f"quotes/{draft['id']}/outside", CALIBRATION).json())
    pages = pages_of(client, draft)
    assert len(pages) <= 3

    prices = draft["undecided"]["prices"]
    ready = [words for price in prices for words in (f"{float(price['gross']):,.2f}", price["ready"])]
    phrases = (
        "Version 1 of",
        "valid until the end of",
        "Calibration by Lathe & Lambda",
        "−250.00",
        "Tell your insurer",
    )
    assert not [words for words in (*ready, *phrases) if squeezed(words) not in squeezed(pages[0])]
    operations = [operation for operation in draft["labour"]["operations"] if operation["hours"] != "0.0"]
    assert len(operations) > 50 and len(ready) == 4
    lines = (*operations, *draft["labour"]["stages"], *draft["needs"], *draft["fees"], *draft["kits"])
    whole = squeezed(" ".join(pages))
    assert not [line["title"] for line in lines if squeezed(line["title"]) not in whole]


def squeezed(text: str) -> str:
    """The text without the spaces that come with the breaking of lines."""
    return "".join(text.lower().split())


@pytest.mark.parametrize("inside", [True, False])
def test_the_first_page_says_who_what_when_and_for_how_long(stage: Stage, inside: bool) -> None:
    RuleSet.objects.filter(used_at=None).update(rules=RULES | {"prices_include_tax": inside})
    shop, customer = stage.cast.shop, stage.customer
    shop.address, shop.email, shop.tax_number = "14 Saltmarsh Lane", "desk@saltmarsh.example", "XX 555 0144"
    shop.save(update_fields=["address", "email", "tax_number"])
    customer.address = "4 Quay Row, Wendlow"
    customer.save(update_fields=["address"])
    draft = discounted(stage.client, stage.quote().json())
    (first, *_) = pages_of(stage.client, draft)
    gross, tax = (f"{float(draft['totals'][name]):,.2f}" for name in ("gross", "tax"))
    actor = (shop.address, shop.email, shop.phone, shop.tax_number, customer.name, customer.address, customer.phone)
    what = (gross, tax, "Version 1 of", "valid until the end of", "Second job with us this year", "No date yet")
    assert not [words for words in (*actor, *what) if squeezed(words) not in squeezed(first)]


def test_a_workshop_with_two_taxes_has_the_whole_answer_on_its_first_page(db: None) -> None:
    """Copper Fell: prices before tax, two taxes on top, the kit bought in another currency."""
    make_copperfell([KITS["brakes"]])
    client = advisor_of("copperfell")
    shop = Shop.objects.get(slug="copperfell")
    shop.address = "2 Assay Row, Copper Fell"
    shop.save(update_fields=["address"])
    draft = quoted(client)
    customer = Customer.objects.get(pk=draft["customer"]["id"])
    customer.address = "9 Tarn Lane, Copper Fell"
    customer.save(update_fields=["address"])
    pages = pages_of(client, draft)
    first = squeezed(pages[0])
    taxes = [f"{float(tax['amount']):,.2f}" for tax in draft["totals"]["taxes"]]
    gross = f"{float(draft['totals']['gross']):,.2f}"
    today = day_words(timezone.now().astimezone(ZoneInfo(shop.zone)).date())
    what = (gross, *taxes, draft["promise"]["headline"], f"Version 1 of {today}", "valid until the end of")
    assert len(taxes) == 2
    assert not [words for words in (*what, shop.address, customer.address) if squeezed(words) not in first]


def test_what_one_signs_has_no_page_to_itself(db: None) -> None:
    """Two prices and a line that may happen: what is signed came third, below a page with a hole of its height."""
    make_copperfell([KITS["brakes"]])
    client = advisor_of("copperfell")
    kit = client.get("kits").json()["items"][0]["id"]
    car = {"customer": quoted(client)["customer"]["id"], "title": "Tessark T35 estate", "attributes": {"model": "T35"}}
    draft = client.post("quotes", {"kits": [kit], "vehicle": client.post("vehicles", car).json()["id"]}).json()
    seized = {"event": "A caliper bolt is seized", "title": "Drive it out", "quantity": "0.6", "skill": "mechanical"}
    draft = client.post(f"quotes/{draft['id']}/contingencies", seized | {"cap": 4}).json()
    assert len(draft["undecided"]["prices"]) == 2 and draft["deposit"]
    assert len(pages_of(client, draft)) == 2
    longer = client.post(f"quotes/{draft['id']}/revise").json()
    for title in ("Brake pads", "Hoses"):
        options = [{"title": f"{title} of kind {n}"} for n in (1, 2)]
        choice = {"title": title, "take": "one", "options": options}
        longer = client.post(f"quotes/{draft['id']}/choices", choice).json()
    *_, last = pages_of(client, longer)
    assert "Not included" in last and "I accept" in last, last
