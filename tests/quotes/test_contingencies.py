"""Lines that are charged only if they happen: beside the total, with what happens, the price and how often."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from kitting.models import PullLine
from quotes.calc.kept_explanations import pack_explanations
from quotes.documents.quote_pdf import paper_html
from quotes.models import Line, Revision
from quotes.presenters.explanations import kept_explanations
from quotes.queries import frozen
from shop.models import RuleSet
from tests.factories import OfferFactory, PartFactory
from tests.quotes.contingent import HOSE, STUD, STUD_HIGHEST, STUD_ONCE, add, sent, with_part, with_stud
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_how import how, steps, with_rules

pytestmark = pytest.mark.once
MARGIN = ("revenue", "cost", "profit", "percent", "words")
SUMS = ("kits", "labour", "needs", "outside", "extras", "fees", "discount", "net", "tax", "gross")


def change(stage: Stage, draft: dict[str, Any], line: str, **fields: Any) -> Any:
    seen = stage.client.get(f"quotes/{draft['id']}")
    return stage.client.patch(f"quotes/{draft['id']}/contingencies/{line}", fields, seen=seen)


def test_work_costs_its_hours_at_the_rate_of_its_skill(stage: Stage) -> None:
    (stud,) = with_stud(stage)["contingencies"]
    assert (stud["kind"], stud["price"], stud["cap"], stud["highest"]) == ("labour", STUD_ONCE, 4, STUD_HIGHEST)
    assert (stud["tax"], stud["tax_class"], stud["unit_price"]) == ("16.50", "labour", "165.00")


def test_work_has_the_tax_class_of_its_skill(stage: Stage) -> None:
    RuleSet.objects.filter(shop=stage.shop).update(rules=RULES | {"labour_classes": {"mechanical": "fee"}})
    (stud,) = with_stud(stage)["contingencies"]
    assert stud["tax_class"] == "fee"


def test_it_is_in_no_sum_of_the_quote(stage: Stage) -> None:
    """Not in hours, totals, supplies, deposit or date; the minimum charge and the discount are as without it."""
    draft = stage.quote().json()
    discount = {"percent": "10", "amount": None, "because": "Regular customer"}
    without = stage.client.put(
        f"quotes/{draft['id']}/discount", discount, seen=stage.client.get(f"quotes/{draft['id']}")
    )
    for line in (STUD, HOSE):
        answer = add(stage, draft["id"], **line)
        assert answer.status_code == 201, answer.content
    before, after = without.json(), answer.json()
    assert {name: after["totals"][name] for name in SUMS} == {name: before["totals"][name] for name in SUMS}
    assert after["labour"]["hours"] == before["labour"]["hours"]
    for name in ("fees", "discount", "deposit", "extras", "labour", "promise"):
        assert after[name] == before[name], name


DEPOSIT: dict[str, Any] = {"deposit_share": "0.5", "words": RULES["words"] | {"payment": ["Transfer it."]}}


@pytest.mark.parametrize(
    "rules",
    [
        DEPOSIT | {"deposit": {"base": "parts"}},
        DEPOSIT | {"deposit": {"base": "total"}},
        {"minimum": {"hours": "40.0"}},
        {"fees": [{"code": "env", "title": "Environment", "amount": "5.00", "tax_class": "fee", "per": "quote"}]},
    ],
)
def test_no_rule_counts_it(stage: Stage, rules: dict[str, Any]) -> None:
    RuleSet.objects.filter(shop=stage.shop).update(rules=RULES | rules)
    draft, line = with_part(stage)
    stage.client.delete(f"quotes/{draft['id']}/lines/{line}", seen=stage.client.get(f"quotes/{draft['id']}"))
    before = stage.client.get(f"quotes/{draft['id']}").json()
    for fields in (STUD, HOSE):
        after = add(stage, draft["id"], **fields).json()
    assert (before["deposit"] is not None) == ("deposit" in rules)
    titles = {fee["title"] for fee in before["fees"]}
    assert ("Minimum charge" in titles, "Environment" in titles) == ("minimum" in rules, "fees" in rules)
    assert (after["totals"], after["fees"], after["deposit"]) == (before["totals"], before["fees"], before["deposit"])


def test_the_margin_leaves_it_out_before_and_after_sending(stage: Stage) -> None:
    draft = stage.quote().json()
    before = stage.client.get(f"quotes/{draft['id']}/margin").json()
    after = add(stage, draft["id"], **STUD).json()
    assert stage.client.get(f"quotes/{draft['id']}/margin").json() == before
    sent(stage, after)
    after_sending = stage.client.get(f"quotes/{draft['id']}/margin").json()
    assert {name: after_sending[name] for name in MARGIN} == {name: before[name] for name in MARGIN}


def test_prices_before_tax_are_named_with_tax(stage: Stage) -> None:
    RuleSet.objects.filter(shop=stage.shop).update(rules=RULES | {"prices_include_tax": False})
    (stud,) = with_stud(stage)["contingencies"]
    assert (stud["price"], stud["tax"], stud["highest"]) == ("118.80", "19.80", "475.20")  # 99.00 and 20 %


def test_a_part_of_the_total_becomes_one_that_may_happen_and_back(stage: Stage) -> None:
    draft, line = with_part(stage)
    answer = change(stage, draft, line, event="The pipe is cracked", cap=2)
    (pipe,) = answer.json()["contingencies"]
    assert (pipe["kind"], pipe["price"], pipe["highest"], answer.json()["extras"]) == ("part", "80.00", "160.00", [])
    assert Decimal(answer.json()["totals"]["gross"]) == Decimal(draft["totals"]["gross"]) - 80
    back = stage.client.delete(f"quotes/{draft['id']}/contingencies/{line}", seen=answer).json()
    assert back["totals"] == draft["totals"] and "contingencies" not in back


def test_undo_takes_it_back(stage: Stage) -> None:
    draft, line = with_part(stage)
    changed = change(stage, draft, line, event="The pipe is cracked", cap=2)
    undone = stage.client.post(f"quotes/{draft['id']}/undo", {"version": changed.json()["version"]}).json()
    assert undone["totals"] == draft["totals"]


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"unit_price": "5.00"}, "/unit_price"),
        ({"part": "00000000-0000-0000-0000-000000000000"}, None),
        ({"skill": "welding"}, "/skill"),
        ({"quantity": "0.65"}, "/quantity"),
        ({"quantity": "0"}, "/quantity"),
        ({"cap": 0}, "/cap"),
        ({"event": "\u200b"}, "/event"),
    ],
)
def test_it_refuses_what_cannot_be_charged(stage: Stage, fields: dict[str, Any], pointer: str | None) -> None:
    draft = stage.quote().json()
    answer = add(stage, draft["id"], **STUD | fields)
    assert answer.status_code == (400 if pointer else 404)
    if pointer:
        assert [error["pointer"] for error in answer.json()["errors"]] == [pointer]


def test_it_refuses_a_kit_and_work_in_any_case(stage: Stage) -> None:
    draft = with_stud(stage)
    kit = change(stage, draft, draft["kits"][0]["line"], event="It rains", cap=1)
    assert (kit.status_code, kit.json()["type"].rpartition("/")[2]) == (409, "cannot-be-contingent")
    line = draft["contingencies"][0]["line"]
    seen = stage.client.get(f"quotes/{draft['id']}")
    work = stage.client.delete(f"quotes/{draft['id']}/contingencies/{line}", seen=seen)
    assert (work.status_code, work.json()["type"].rpartition("/")[2]) == (409, "work-is-contingent")
    other = stage.client.patch(f"quotes/{draft['id']}/lines/{line}", {"title": "Drill"}, seen=seen)
    assert (other.status_code, other.json()["type"].rpartition("/")[2]) == (409, "contingency-elsewhere")


def test_it_refuses_more_than_a_customer_reads(stage: Stage) -> None:
    draft = stage.quote().json()
    answers = [add(stage, draft["id"], **HOSE) for _ in range(21)]
    assert [answer.status_code for answer in answers] == [201] * 20 + [409]
    assert answers[-1].json()["type"].endswith("too-many-contingencies")


def test_a_part_without_a_price_keeps_the_quote_from_being_sent(stage: Stage) -> None:
    draft, line = with_part(stage)
    seen = stage.client.get(f"quotes/{draft['id']}")
    Line.objects.filter(pk=line).update(unit_price=None)
    stage.client.patch(f"quotes/{draft['id']}/contingencies/{line}", {"event": "It cracks", "cap": 1}, seen=seen)
    assert any("Charge pipe" in words for words in stage.client.get(f"quotes/{draft['id']}").json()["stops"])


def test_the_customer_reads_it_on_page_receipt_and_paper(stage: Stage) -> None:
    draft = with_stud(stage)
    quote = sent(stage, draft)
    phone = Phone(quote["link"]["url"])
    assert phone.answer().status_code == 303
    receipt = phone.client.get(phone.page + "receipt").content.decode()
    paper = paper_html(Revision.objects.get(state="accepted").snapshot)
    for text in (phone.html, receipt, paper):
        assert "An exhaust stud breaks" in text and "0.00 to 396.00" in text
        assert "99.00 each with tax, at most 4 times" in text
        assert "at most 396.00 EUR more" in text
    assert phone.html.count("at most 396.00 EUR more") == 2  # in its section and beside the button


def test_the_price_stays_as_it_was_sent(stage: Stage) -> None:
    draft = stage.quote().json()
    part = PartFactory(shop=stage.shop, number="P-2", title="Hose")
    OfferFactory(shop=stage.shop, part=part, unit_cost=Decimal("10.00"))
    draft = add(stage, draft["id"], event="It has perished", part=str(part.pk), cap=2).json()
    assert draft["contingencies"][0]["highest"] == "30.00"  # bought for 10.00, sold for 15.00
    quote = sent(stage, draft)["quote"]
    OfferFactory(shop=stage.shop, part=part, unit_cost=Decimal("20.00"), valid_from=date(2026, 6, 1))
    after_sending = stage.client.get(f"quotes/{quote['id']}").json()
    assert (after_sending["state"], after_sending["contingencies"][0]["highest"]) == ("sent", "30.00")
    again = stage.client.post(f"quotes/{quote['id']}/revise").json()
    assert again["contingencies"][0]["highest"] == "60.00"


def test_a_quote_without_any_has_the_text_that_it_had_before(stage: Stage) -> None:
    stage.sent()
    assert "contingencies" not in frozen.read(Revision.objects.get(state="sent"))["shown"]


def test_it_is_neither_work_nor_a_part_of_the_job(stage: Stage) -> None:
    draft, line = with_part(stage)
    changed = change(stage, draft, line, event="The pipe is cracked", cap=2).json()
    assert Phone(sent(stage, changed)["link"]["url"]).answer().status_code == 303
    assert not PullLine.objects.filter(number="P-1").exists()


def test_the_next_version_has_it_and_says_what_changed(stage: Stage) -> None:
    quote = sent(stage, with_stud(stage))["quote"]
    new = stage.client.post(f"quotes/{quote['id']}/revise").json()
    (stud,) = new["contingencies"]
    assert (stud["event"], stud["cap"], stud["skill"]) == (STUD["event"], 4, "mechanical")
    assert change(stage, new, stud["line"], cap=2).status_code == 200
    groups = stage.client.get(f"quotes/{quote['id']}/difference").json()["groups"]
    (line,) = [line for group in groups for line in group["lines"]]
    assert (line["title"].partition(":")[0], line["before"], line["after"]) == (STUD["event"], "396.00", "198.00")


def test_a_range_by_phone_has_room_for_it(stage: Stage) -> None:
    draft = stage.quote(vehicle=None).json()
    before = stage.client.get(f"quotes/{draft['id']}").json()["range"]
    after = add(stage, draft["id"], **STUD | {"cap": 9}).json()["range"]
    assert Decimal(after["high"]) - Decimal(before["high"]) in (Decimal(800), Decimal(900))
    assert after["low"] == before["low"]


def test_it_is_read_out_by_phone(stage: Stage) -> None:
    quote = sent(stage, with_stud(stage))["quote"]
    form = stage.client.get(f"quotes/{quote['id']}/spoken-answer").json()
    (words,) = form["prices"][0]["contingencies"]
    assert words.startswith("Only if it happens: An exhaust stud breaks.") and "99.00 each" in words


def test_its_price_is_explained_on_the_draft_and_kept_with_the_sent_quote(stage: Stage) -> None:
    draft = with_stud(stage)
    key = f"contingency:{draft['contingencies'][0]['line']}"
    on_draft = how(stage, draft, key)
    assert on_draft["title"] == "An exhaust stud breaks" and "is not in the total" in on_draft["rule"][0]
    assert steps(on_draft) == [
        ("Rate of the skill, an hour", "165.00"),
        ("0.6 h × 165.00", STUD_ONCE),
        (f"At most 4 times, {STUD_ONCE} each", STUD_HIGHEST),
    ]
    assert on_draft["result"] == STUD_HIGHEST
    sent(stage, draft)
    assert how(stage, draft, key) == on_draft


def test_its_explanation_adds_the_tax_where_prices_are_before_tax(stage: Stage) -> None:
    with_rules(prices_include_tax=False)
    draft = add(stage, stage.quote().json()["id"], **HOSE).json()
    (hose,) = draft["contingencies"]
    explanation = how(stage, draft, f"contingency:{hose['line']}")
    assert steps(explanation)[1:] == [
        ("1 × 64.20", "64.20"),
        ("Tax on it", hose["tax"]),
        ("One time, with tax", hose["price"]),
        ("At most once", hose["highest"]),
    ]
    assert Decimal(hose["price"]) == Decimal("64.20") + Decimal(hose["tax"]) > Decimal("64.20")


def test_a_quote_sent_before_it_was_explained_has_the_general_rule(stage: Stage) -> None:
    draft = with_stud(stage)
    sent(stage, draft)
    document = frozen.read(Revision.objects.get(state="sent"))
    document["how"] = pack_explanations([], ())
    (explanation,) = kept_explanations(document)
    assert (explanation.title, explanation.result) == ("An exhaust stud breaks", STUD_HIGHEST)
