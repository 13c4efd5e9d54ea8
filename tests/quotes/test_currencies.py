"""Currencies without decimals and with three: from the rules' file to the customer's receipt and the paper."""

import io
import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from pypdf import PdfReader

from quotes.models import Decision, Line, Revision
from shop.documents import pdf
from shop.models import Member, Shop, Vehicle
from tests.cast import make_member
from tests.client import CheckedClient
from tests.prepared import prepared
from tests.quotes.currencies import (
    MONEYS,
    Money,
    amounts,
    grouped,
    make_house,
    misfits,
    rules_file,
    workbook,
    wrong_on_paper,
)
from tests.quotes.phone import Phone

pytestmark = pytest.mark.once


@pytest.fixture(params=MONEYS, ids=lambda money: money.currency)
def money(request: pytest.FixtureRequest) -> Money:
    return request.param


@pytest.fixture
def house(money: Money, db: None) -> Shop:
    return prepared(make_house, money)


@pytest.fixture
def member(house: Shop) -> Member:
    return prepared(make_member, house, Member.Role.ADVISOR)


@pytest.fixture
def advisor(house: Shop, member: Member) -> CheckedClient:
    return client_of(house, member)


def client_of(house: Shop, member: Member) -> CheckedClient:
    client = CheckedClient(shop=house.slug)
    client.force_login(member.user)
    return client


@pytest.fixture
def draft(house: Shop, member: Member, money: Money) -> dict[str, Any]:
    return prepared(_draft, house, member, money)


def _draft(house: Shop, member: Member, money: Money) -> dict[str, Any]:
    advisor = client_of(house, member)
    customer = advisor.post("customers", {"name": "Maren Oldacre"}).json()
    vehicle = {"customer": customer["id"], "title": "Tessark T35 estate", "capacities": {"engine oil": "6.1"}}
    vehicle_id = advisor.post("vehicles", vehicle).json()["id"]
    plain = {"code": "QF-T", "title": "Towing kit", "price": str(money.of("500.25")), "hours": "1.25"}
    kits = [advisor.get("kits?q=turbo").json()["items"][0]["id"], advisor.post("kits", plain).json()["id"]]
    answer = advisor.post("quotes", {"kits": kits, "customer": customer["id"], "vehicle": vehicle_id})
    assert answer.status_code == 201, answer.content
    line = {"kind": "text", "title": "Wheel alignment", "quantity": "1.3333", "tax_class": "labour"}
    added = advisor.post(f"quotes/{answer.json()['id']}/lines", line | {"unit_price": str(money.of("79.99"))})
    assert added.status_code == 201, added.content
    changed: dict[str, Any] = added.json()
    return changed


@pytest.fixture
def sent(house: Shop, member: Member, draft: dict[str, Any], money: Money) -> dict[str, Any]:
    """The sent quote. Its paper is kept with it, so a quote with printed pages is prepared apart from one without."""
    return prepared(_sent, house, member, draft["id"], draft["version"], after=(money, pdf.render))


def _sent(house: Shop, member: Member, draft: str, version: int) -> dict[str, Any]:
    body = {"version": version, "recipient": "01632 960 417"}
    answer = client_of(house, member).post(f"quotes/{draft}/send", body)
    assert answer.status_code == 201, answer.content
    sent: dict[str, Any] = answer.json()
    return sent


def test_every_amount_of_a_draft_has_the_currencys_decimals(draft: dict[str, Any], money: Money) -> None:
    assert misfits(draft, money) == {}
    assert (draft["currency"], draft["exponent"]) == (money.currency, money.exponent)
    assert draft["stops"] == [] and len(list(amounts(draft))) > 20


def test_the_parts_of_a_draft_add_up_to_its_total(draft: dict[str, Any]) -> None:
    totals = {name: Decimal(text) for name, text in draft["totals"].items() if isinstance(text, str)}
    parts = ("kits", "labour", "needs", "extras", "fees")
    assert sum(totals[name] for name in parts) == totals["gross"] == totals["net"] + totals["tax"]
    shares = [Decimal(operation["price"]) for operation in draft["labour"]["operations"]]
    assert sum(shares) == totals["labour"] and len(shares) == 4
    for name in ("kits", "needs", "extras", "fees"):
        assert sum(Decimal(row["price"]) for row in draft[name]) == totals[name]


@pytest.mark.parametrize("money", MONEYS[:1], indirect=True, ids=["JPY"])
def test_figures_worked_by_hand_in_yen(draft: dict[str, Any]) -> None:
    """26,485 an hour; 1234.5678 USD at 151.37 and 4 % duty; a fee of 128.88 a litre on 6.1 L."""
    turbo, towing = draft["kits"]
    goods = Decimal(186_877)  # 1234.5678 x 151.37 = 186,876.53
    landed = goods + Decimal(7_475)  # 4 % of it: 7,475.08
    assert turbo["price"] == f"{16_000 * Decimal('1.5') + (landed - 16_000) * Decimal('1.2'):.0f}"
    assert towing["price"] == "80040"
    assert draft["labour"]["amount"] == "180098"  # 6.8 h; 5.5 of the template and 1.3 of the kit's own 1.25
    shares = [
        operation["price"] for operation in draft["labour"]["operations"]
    ]  # each ends in a half; two of them go up
    assert shares == ["39728", "87401", "18539", "34430"]
    assert [fee["price"] for fee in draft["fees"]] == ["786", "520", "7680"]


def test_the_margin_has_the_currencys_decimals(advisor: CheckedClient, draft: dict[str, Any], money: Money) -> None:
    margin = advisor.get(f"quotes/{draft['id']}/margin").json()
    assert misfits(margin, money) == {}
    priced = Decimal(margin["revenue"]) - Decimal(margin["cost"])
    assert Decimal(0) < Decimal(margin["profit"]) < priced and len(margin["words"]) == 2  # a kit's cost is not known


def test_how_a_figure_came_about_is_told_in_the_currencys_decimals(
    advisor: CheckedClient, draft: dict[str, Any], money: Money
) -> None:
    lines = [row["key"] for name in ("kits", "needs", "fees") for row in draft[name]]
    phrases = [
        text
        for key in [
            *lines,
            *(operation["key"] for operation in draft["labour"]["operations"]),
            "supplies",
            "tax:VAT",
            "total",
        ]
        for how in [advisor.get(f"quotes/{draft['id']}/how?key={key}").json()]
        for text in [how["result"], *(step["figure"] for step in how["steps"])]
    ]
    plain_money = [text.removeprefix("+ ") for text in phrases if text and not re.search("[A-Za-z]", text)]
    assert len(plain_money) > 20 and wrong_on_paper(plain_money, money) == []


def test_what_was_sent_is_stored_and_shown_to_the_last_unit(
    advisor: CheckedClient, sent: dict[str, Any], money: Money
) -> None:
    assert misfits(sent["quote"], money) == {}
    revision = Revision.objects.get(quote_id=sent["quote"]["id"])
    assert misfits(json.loads(revision.snapshot)["shown"], money) == {}
    assert revision.net + revision.tax == revision.gross == Decimal(sent["quote"]["totals"]["gross"])
    assert sum(line.amount for line in Line.objects.filter(revision=revision)) == revision.gross
    row = advisor.get("quotes").json()["items"][0]
    assert row["gross"] == sent["quote"]["totals"]["gross"]
    assert misfits(advisor.get(f"quotes/{sent['quote']['id']}/margin").json(), money) == {}


def test_the_customer_reads_and_accepts_it_in_that_currency(sent: dict[str, Any], money: Money) -> None:
    phone = Phone(sent["link"]["url"])
    gross = grouped(sent["quote"]["totals"]["gross"])
    assert f"{gross} {money.currency}" in phone.html
    matches = re.findall(r'<(?:td class="money"|div class="f"|span class="(?:amt|f)")>([^<]+)<', phone.html)
    assert len(matches) > 15 and wrong_on_paper(matches, money) == []
    assert phone.answer(consent=()).status_code == 303
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert f"{gross} {money.currency}" in receipt
    assert wrong_on_paper(re.findall(r'<td class="money">([^<]+)<', receipt), money) == []
    assert Decision.objects.get().record["gross"] == sent["quote"]["totals"]["gross"]


@pytest.mark.paper
def test_the_paper_and_the_text_inside_it_have_the_currencys_decimals(sent: dict[str, Any], money: Money) -> None:
    phone = Phone(sent["link"]["url"])
    answer = phone.client.get(f"{phone.page}paper")
    paper = PdfReader(io.BytesIO(b"".join(answer.streaming_content) if answer.streaming else answer.content))
    text = "\n".join(page.extract_text() for page in paper.pages)
    for section in ("labour", "needs", "extras", "fees", "gross"):
        assert grouped(sent["quote"]["totals"][section]) in text, section
    for kit in sent["quote"]["kits"]:
        assert grouped(kit["price"]) in text
    figures = re.findall(r"(?<![\w.,])\d{1,3}(?:,\d{3})+(?:\.\d+)?", text)  # what has thousands is an amount
    assert figures and wrong_on_paper(figures, money) == []
    inside = json.loads(paper.attachments["quote.json"][0])
    assert misfits(inside["shown"], money) == {}
    assert inside["shop"]["exponent"] == money.exponent


def test_the_kit_that_is_only_a_price_shows_it(advisor: CheckedClient, draft: dict[str, Any], money: Money) -> None:
    kit = advisor.get(f"kits/{draft['kits'][1]['kit']}").json()
    assert misfits({"price": kit["price"]}, money) == {}


def test_a_price_finer_than_the_currency_is_refused_where_a_person_enters_it(
    advisor: CheckedClient, draft: dict[str, Any], money: Money
) -> None:
    finer = str(Decimal(1) + Decimal(1).scaleb(-money.exponent - 1))
    path, line, kit = f"quotes/{draft['id']}", draft["extras"][0]["line"], draft["kits"][0]["line"]
    seen = advisor.get(path)
    text = {"kind": "text", "title": "Storage", "unit_price": finer, "tax_class": "part"}
    refused = {
        "/unit_price": [
            advisor.post(f"{path}/lines", text),
            advisor.patch(f"{path}/lines/{line}", {"unit_price": finer}, seen=seen),
        ],
        "/value": [advisor.put(f"{path}/overrides/kit:{kit}", {"value": finer, "because": "agreed"}, seen=seen)],
        "/price": [advisor.post("kits", {"code": "X", "title": "X", "price": finer, "hours": "1"})],
    }
    words = "Enter a whole amount" if money.exponent == 0 else f"Enter at most {money.exponent} decimal places"
    for pointer, answers in refused.items():
        for answer in answers:
            assert answer.status_code == 400, answer.content
            assert [error["pointer"] for error in answer.json()["errors"]] == [pointer]
            assert answer.json()["errors"][0]["detail"].startswith(words)


def findings(client: CheckedClient, kind: str, path: Path) -> list[tuple[str, str]]:
    """(cell, words) of what must be fixed."""
    with path.open("rb") as file:
        answer = client.post("imports", {"kind": kind, "file": file}, format="multipart")
    assert answer.status_code == 201, answer.content
    read = answer.json()
    assert read["can_take_in"] is not any(finding["weight"] == "must_fix" for finding in read["findings"])
    return [(finding["cell"], finding["words"]) for finding in read["findings"] if finding["weight"] == "must_fix"]


def test_a_price_finer_than_the_currency_is_found_in_a_file(house: Shop, money: Money, tmp_path: Path) -> None:
    manager = CheckedClient(shop="saltmarsh")
    manager.force_login(make_member(house, Member.Role.MANAGER).user)
    finer = str(Decimal(1) + Decimal(1).scaleb(-money.exponent - 1))
    sentence = f"more decimals than {money.currency} has: at most {money.exponent} decimal places."
    file = rules_file(
        tmp_path / "finer.xlsx",
        money,
        labour_rates=[["Skill", "Rate"], ["mechanical", finer]],
        fees=[["Code", "Title", "Amount", "Tax class", "Per"], ["d", "Disposal", finer, "fee", "quote"]],
        rules=[
            ["Rule", "Value"],
            ["Markup mode", "graduated"],
            ["Supplies rate", "5 %"],
            ["Supplies basis", "labour"],
            ["Supplies cap", finer],
        ],
    )
    problems = findings(manager, "rules", file)
    assert sorted(cell for cell, _ in problems) == ["B2", "B5", "C2"] and all(
        sentence in words for _, words in problems
    )
    kit = workbook(
        tmp_path / "kit.xlsx",
        kit=[["Kit", "K-1"], ["Title", "Spare"], ["Selling price", finer], ["Hours", "1"]],
        contents=[["Carton", "Number", "Title", "Qty"], ["C1", "K-BOLT", "Bolt", 8]],
    )
    problems = findings(manager, "kit", kit)
    assert len(problems) == 1 and sentence in problems[0][1]


def test_a_unit_cost_may_be_finer_than_any_currency(advisor: CheckedClient, house: Shop, money: Money) -> None:
    """The kit costs 1234.5678 in its supplier's currency; what it sells for is rounded once."""
    assert Vehicle.objects.count() == 0
    quote = advisor.post("quotes", {"kits": [advisor.get("kits?q=turbo").json()["items"][0]["id"]]}).json()
    assert misfits(quote["kits"][0], money) == {}


@pytest.mark.parametrize(
    ("currency", "exponent"), [("JPY", 0), ("KRW", 0), ("EUR", 2), ("USD", 2), ("KWD", 3), ("TND", 3), ("XTS", 2)]
)
def test_a_shop_is_opened_with_the_decimals_of_its_currency(db: None, currency: str, exponent: int) -> None:
    call_command("shop", "bay", "--name", "Bay", "--currency", currency, "--zone", "Asia/Tokyo", stdout=io.StringIO())
    assert Shop.objects.get().exponent == exponent


def test_a_place_may_use_other_decimals_than_the_standard(db: None) -> None:
    options = ("--name", "Bay", "--currency", "EUR", "--exponent", "0", "--zone", "Asia/Tokyo")
    call_command("shop", "bay", *options, stdout=io.StringIO())
    assert Shop.objects.get().exponent == 0
