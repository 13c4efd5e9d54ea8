"""Work of another firm on a quote: its price in both tax regimes, its costs for the roles that may see them, its days
in the date.
"""

import json
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from msgspec import to_builtins

from kitting.models import Offer, Supplier
from quotes.answers.figures import QuotedOutsideOut
from quotes.models import OutsideWork, Revision
from quotes.presenters.customer import for_customer, presented
from quotes.queries import frozen
from shop.answers.base import from_kept
from shop.models import ClosedDay, RuleSet
from tests.costs import keys_of
from tests.quotes import dated
from tests.quotes.changing import send as send_at_any_margin
from tests.quotes.dated import Clock, local, ready, send
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage

FILE: dict[str, Any] = {
    "title": "Calibration",
    "firm": "Lathe & Lambda",
    "cost": "480.00",
    "markup": "0.175",
    "handling": "12.33",
    "tax_class": "labour",
    "days": 3,
    "starts_after": "SETUP",
    "needed_by": "TURBO",
    "they_do": "",
    "they_need": "original file, build sheet",
    "reference": "",
    "warranty": "they warrant the file, we warrant loading it",
    "we_warrant": "",
    "rounds": None,
    "per_round": False,
}
LOOP: dict[str, Any] = {
    "they_do": "write the file from our logs",
    "reference": "LL-417",
    "we_warrant": "that it is loaded as they sent it",
    "rounds": 3,
}
NAME = "Calibration by Lathe & Lambda"


def add(stage: Stage, quote: dict[str, Any], **fields: Any) -> dict[str, Any]:
    answer = stage.client.post(f"quotes/{quote['id']}/outside", FILE | fields)
    assert answer.status_code == 201, answer.content
    body: dict[str, Any] = answer.json()
    return body


def path_of(stage: Stage, quote: dict[str, Any]) -> str:
    return f"quotes/{quote['id']}/outside/{quote['outside'][0]['line']}"


def draft(stage: Stage, **fields: Any) -> dict[str, Any]:
    """A quote over the turbocharger kit, which is here tonight with its oil, with the work of another firm."""
    return stage.as_before(_draft, json.dumps(fields))


def _draft(stage: Stage, _: Any, fields: str) -> dict[str, Any]:
    Offer.objects.update(lead_days=0)
    return add(stage, stage.quote(stage.turbo).json(), **json.loads(fields))


@pytest.mark.parametrize(
    ("inside", "price", "total"),
    [
        (True, "691.60", "gross"),  # 480 x 1.175 + 12.33 = 576.33; x 1.2 = 691.596
        (False, "576.33", "net"),  # its tax comes with that of the whole quote
    ],
)
def test_its_price_is_cost_markup_and_handling_with_the_tax_where_prices_hold_it(
    stage: Stage, inside: bool, price: str, total: str
) -> None:
    RuleSet.objects.filter(used_at=None).update(rules=RULES | {"prices_include_tax": inside, "supplies": None})
    quote = add(stage, stage.quote(stage.turbo).json())
    without = stage.client.delete(f"quotes/{quote['id']}/lines/{quote['outside'][0]['line']}", seen='"2"').json()
    assert (quote["outside"][0]["price"], quote["totals"]["outside"]) == (price, price)
    assert str(Decimal(quote["totals"][total]) - Decimal(without["totals"][total])) == price
    assert without["outside"] == [] and OutsideWork.objects.count() == 0


def test_its_cost_is_in_the_margin_and_nowhere_else(stage: Stage) -> None:
    quote = draft(stage)
    margin = stage.client.get(f"quotes/{quote['id']}/margin").json()
    step = {"words": f"{NAME}: what the firm asks", "figure": "− 480.00"}
    assert step in margin["how"]["steps"]
    sent = send(stage, quote)["quote"]
    kept_margin = stage.client.get(f"quotes/{sent['id']}/margin").json()
    assert step in kept_margin["how"]["steps"] and kept_margin["rate"] == margin["rate"]
    snapshot = Revision.objects.get(quote=sent["id"]).snapshot
    for text in (json.dumps(quote), json.dumps(sent), snapshot):
        assert "480.00" not in text and "0.175" not in text and "12.33" not in text
    assert not {"cost", "markup", "handling"} & set(keys_of(quote))


def test_what_it_costs_is_read_and_replaced_as_a_whole(stage: Stage) -> None:
    quote = draft(stage)
    assert stage.client.get(path_of(stage, quote)).json() == FILE
    less = FILE | {"markup": "0", "handling": "0.00", "firm": "LATHE & LAMBDA", "days": None}
    changed = stage.client.put(path_of(stage, quote), less, seen=f'"{quote["version"]}"').json()
    assert (changed["outside"][0]["price"], changed["outside"][0]["days"]) == ("576.00", None)
    assert stage.client.get(path_of(stage, quote)).json() == less | {"firm": "Lathe & Lambda"}
    assert Supplier.objects.filter(name__icontains="lathe").count() == 1
    stale = stage.client.put(path_of(stage, quote), FILE, seen=f'"{quote["version"]}"')
    assert stale.status_code == 412


@pytest.mark.both
@pytest.mark.parametrize("role", ["parts", "technician"])
def test_neither_parts_nor_technician_sees_what_it_costs(stage: Stage, role: str) -> None:
    quote = draft(stage)
    client = stage.cast.signed_in(role)
    assert client.get(path_of(stage, quote)).status_code == client.get("outside-work").status_code == 403


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"starts_after": "GONE"}, "/starts_after"),
        ({"needed_by": "GONE"}, "/needed_by"),
        ({"starts_after": "TURBO", "needed_by": "SETUP"}, "/needed_by"),
        ({"days": 0}, "/days"),
        ({"cost": "480.001"}, "/cost"),
        ({"cost": "999999999.00", "markup": "99"}, "/cost"),
    ],
)
def test_it_refuses_what_cannot_be(stage: Stage, fields: dict[str, Any], field: str) -> None:
    quote = stage.quote(stage.turbo).json()
    answer = stage.client.post(f"quotes/{quote['id']}/outside", FILE | fields)
    assert answer.status_code == 400 and [error["pointer"] for error in answer.json()["errors"]] == [field]
    assert OutsideWork.objects.count() == 0


def test_the_firms_that_were_used_are_offered_with_their_newest_terms(stage: Stage) -> None:
    quote = draft(stage, cost="450.00")
    add(stage, quote)
    add(stage, quote, title="Wheel alignment", firm="Straight & True")
    lines = stage.client.get("outside-work").json()["items"]
    assert [work["title"] for work in lines] == ["Wheel alignment", "Calibration"] and lines[1]["cost"] == "480.00"
    for typed, firms in [("lamb", ["Lathe & Lambda"]), ("ALIGN", ["Straight & True"]), ("nobody", [])]:
        items = stage.client.get("outside-work", {"q": typed}).json()["items"]
        assert [item["firm"] for item in items] == firms


def test_the_firms_are_found_by_words_among_the_work_of_all_quotes(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    quote = draft(stage)
    add(stage, quote, title="Wheel alignments", firm="Straight & True")
    monkeypatch.setattr("quotes.queries.earlier_work.NEWEST", 1)
    for typed, firms in [("lambda calib", ["Lathe & Lambda"]), ("alignment true", ["Straight & True"]), ("ambda", [])]:
        items = stage.client.get("outside-work", {"q": typed}).json()["items"]
        assert [item["firm"] for item in items] == firms, typed


def test_a_persons_own_price_stands_in_its_place_with_the_reason(stage: Stage) -> None:
    quote = draft(stage)
    key = quote["outside"][0]["key"]
    body = {"value": "650.00", "because": "agreed by telephone"}
    path = f"quotes/{quote['id']}/overrides/{key}"
    own = stage.client.put(path, body, seen=f'"{quote["version"]}"').json()
    assert (own["outside"][0]["price"], own["outside"][0]["override"]) == ("650.00", body)
    how = stage.client.get(f"quotes/{quote['id']}/how", {"key": key}).json()
    assert [step["figure"] for step in how["steps"]] == ["691.60", "691.60", "650.00"]


# Rounds, and what each firm does and warrants


@pytest.mark.parametrize(
    ("per_round", "price", "rounds"),
    [
        (False, "691.60", "3 rounds of logging and correcting are included"),
        (True, "2045.20", "3 rounds of logging and correcting, charged by the round"),
    ],  # (480 x 3 x 1.175 + 12.33) x 1.2 = 2045.196
)
def test_rounds_are_included_or_charged_and_stand_on_page_and_paper(
    stage: Stage, per_round: bool, price: str, rounds: str
) -> None:
    RuleSet.objects.filter(used_at=None).update(rules=RULES | {"supplies": None})
    quote = draft(stage, **LOOP, per_round=per_round)
    assert quote["outside"][0]["price"] == price
    cost = "1,440.00" if per_round else "480.00"
    steps = stage.client.get(f"quotes/{quote['id']}/margin").json()["how"]["steps"]
    assert {"words": f"{NAME}: what the firm asks", "figure": f"− {cost}"} in steps
    phone = Phone(send_at_any_margin(stage, quote)["link"]["url"])
    content = frozen.read(Revision.objects.get())
    (section,) = [part for part in presented(content, "0" * 64).sections if part.name == "outside"]
    assert section.lines[0].why == [
        "Their work: write the file from our logs",
        rounds,
        "Takes 3 working days",
        "Warranty: they warrant the file, we warrant loading it",
        "We warrant: that it is loaded as they sent it",
    ]
    assert rounds in phone.html and "We warrant: that it is loaded as they sent it" in phone.html
    assert "LL-417" not in phone.html and "LL-417" not in json.dumps(for_customer(content))


def test_a_text_from_before_there_were_rounds_says_nothing_of_them(stage: Stage) -> None:
    send(stage, draft(stage, **LOOP))
    content = frozen.read(Revision.objects.get())
    for name in ("they_do", "reference", "we_warrant", "rounds", "per_round"):
        del content["shown"]["outside"][0][name]
    (section,) = [part for part in presented(content, "0" * 64).sections if part.name == "outside"]
    assert section.lines[0].why == ["Takes 3 working days", "Warranty: they warrant the file, we warrant loading it"]
    assert "rounds" not in to_builtins(from_kept(content["shown"]["outside"][0], QuotedOutsideOut))


def test_without_rounds_nothing_is_charged_by_the_round(stage: Stage) -> None:
    quote = draft(stage, per_round=True)
    assert (quote["outside"][0]["price"], quote["outside"][0]["per_round"]) == ("691.60", False)
    refused = stage.client.post(f"quotes/{quote['id']}/outside", FILE | {"rounds": 0})
    assert refused.status_code == 400 and refused.json()["errors"][0]["pointer"] == "/rounds"


def test_a_new_version_keeps_rounds_and_sentences(stage: Stage) -> None:
    sent = send_at_any_margin(stage, draft(stage, **LOOP, per_round=True))
    again = stage.client.post(f"quotes/{sent['quote']['id']}/revise", {}).json()
    assert stage.client.get(path_of(stage, again)).json() == FILE | LOOP | {"per_round": True}


# The date


def test_the_date_waits_for_its_days_and_says_so(stage: Stage) -> None:
    quote = draft(stage, title="Calibration file")
    assert ready(stage.quote(stage.turbo).json()) == "Wed 2 Dec, in the afternoon"
    # set up on Tuesday 1 Dec; Wed, Thu, Fri at the firm; 2.5 h of turbocharger on Monday
    assert ready(quote) == "Mon 7 Dec, in the morning"
    assert "then 3 working days for Calibration file by Lathe & Lambda" in quote["promise"]["words"]
    assert "turnaround is counted in days on which we are open" in " ".join(quote["promise"]["how"]["rule"])
    ClosedDay.objects.create(shop=stage.cast.shop, date=date(2026, 12, 3))
    fresh = stage.client.get(f"quotes/{quote['id']}").json()
    assert ready(fresh) == "Tue 8 Dec, in the morning"


def test_from_acceptance_it_is_awaited_and_without_a_turnaround_there_is_no_date(stage: Stage) -> None:
    quote = draft(stage, starts_after="")
    assert {"Calibration by Lathe & Lambda"} <= {delivery["title"] for delivery in quote["promise"]["coming"]}
    none = add(stage, stage.quote(stage.turbo).json(), days=None)
    assert none["promise"] is None
    assert none["no_promise"] == f"No date yet. {NAME} has no turnaround. Ask Lathe & Lambda when to expect it."


def test_a_step_that_is_gone_is_said_and_leaves_no_date(stage: Stage) -> None:
    quote = add(stage, stage.quote(stage.turbo, stage.towing).json(), starts_after="WIRING", needed_by="")
    kit = quote["kits"][1]["line"]
    less = stage.client.delete(f"quotes/{quote['id']}/lines/{kit}", seen=f'"{quote["version"]}"').json()
    assert [notice["code"] for notice in less["notices"]] == ["outside_step_gone"]
    assert less["promise"] is None


# Sent, accepted, and the next version


def test_page_paper_and_receipt_name_the_firm_its_days_and_its_warranty(stage: Stage) -> None:
    sent = send(stage, draft(stage))
    phone = Phone(sent["link"]["url"])
    content = frozen.read(Revision.objects.get())
    (section,) = [part for part in presented(content, "0" * 64).sections if part.name == "outside"]
    assert section.lines[0].why == [
        "Takes 3 working days",
        "Warranty: they warrant the file, we warrant loading it",
    ]
    for text in ("Calibration by Lathe &amp; Lambda", "Takes 3 working days", "691.60"):
        assert text in phone.html
    assert "original file, build sheet" not in phone.html and "original file" not in json.dumps(for_customer(content))
    assert phone.answer().status_code == 303
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert "Calibration by Lathe &amp; Lambda: 3 working days" in receipt


def test_a_new_version_keeps_it_and_says_what_changed(stage: Stage) -> None:
    sent = send(stage, draft(stage))
    phone = Phone(sent["link"]["url"])
    again = stage.client.post(f"quotes/{sent['quote']['id']}/revise", {}).json()
    assert stage.client.get(path_of(stage, again)).json() == FILE
    path = f"quotes/{again['id']}"
    less = stage.client.delete(f"{path}/lines/{again['outside'][0]['line']}", seen=f'"{again["version"]}"').json()
    send(stage, less)
    moved = phone.answer().content.decode()
    assert "Calibration by Lathe &amp; Lambda" in moved and "691.60" in moved


def test_once_sent_neither_line_nor_terms_can_change(stage: Stage) -> None:
    sent = send(stage, draft(stage))["quote"]
    assert stage.client.put(path_of(stage, sent), FILE, seen=f'"{sent["version"]}"').status_code == 409
    with pytest.raises(Exception, match="outside_work"):
        OutsideWork.objects.update(cost="1.0000")


# The job


def accepted(stage: Stage, **fields: Any) -> tuple[dict[str, Any], dict[str, Any]]:
    """The promise of the accepted quote, and the readiness of its job as a technician reads it."""
    return stage.as_before(_accepted, json.dumps(fields))


def _accepted(stage: Stage, _: Any, fields: str) -> tuple[dict[str, Any], dict[str, Any]]:
    sent = send(stage, draft(stage, **json.loads(fields)))
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    quote = stage.client.get(f"quotes/{sent['quote']['id']}").json()
    readiness = stage.cast.signed_in("technician").get(f"jobs/{quote['job']['id']}/readiness").json()
    assert "480.00" not in json.dumps(readiness) and "691.60" not in json.dumps(readiness)
    return quote["promise"], readiness


@pytest.mark.parametrize(
    ("starts_after", "waits"),
    [
        ("SETUP", f"Waits for: {NAME}, 3 working days after step 1"),
        ("", f"Waits for: {NAME}, back Fri 4 Dec if the firm starts today"),
    ],
)
def test_the_job_has_the_date_of_the_acceptance_and_its_step_says_what_it_waits_for(
    stage: Stage, starts_after: str, waits: str
) -> None:
    promise, readiness = accepted(stage, starts_after=starts_after)
    assert readiness["promise"]["ready"] == promise["ready"]
    assert promise["ready"]["words"] == "Mon 7 Dec, in the morning"
    turbo = next(step for step in readiness["steps"] if step["code"] == "TURBO")
    assert waits in turbo["missing"]
    assert not any(NAME in part for step in readiness["steps"] if step is not turbo for part in step["missing"])


def test_work_that_is_tied_to_no_step_is_waited_for_by_the_job_as_a_whole(stage: Stage) -> None:
    _, readiness = accepted(stage, starts_after="", needed_by="")
    assert readiness["notes"][-1] == (
        f"The job as a whole waits for: {NAME}, back Fri 4 Dec if the firm starts today. "
        "No step is named for it, so it counts as needed before the first."
    )
    first, *others = readiness["steps"]
    assert (first["state"], first["missing"][-1]) == ("comes", "Waits for what the job as a whole waits for.")
    assert NAME not in json.dumps(readiness["steps"])
    assert not any("as a whole" in part for step in others for part in step["missing"])


def test_work_that_is_tied_to_a_step_is_not_said_of_the_whole_job(stage: Stage) -> None:
    _, readiness = accepted(stage, starts_after="")
    assert not any(NAME in note for note in readiness["notes"])


def test_a_job_without_a_turnaround_has_no_date_and_its_step_waits(stage: Stage) -> None:
    _, readiness = accepted(stage, days=None)
    assert readiness["promise"] is None and "has no turnaround" in readiness["no_promise"]
    turbo = next(step for step in readiness["steps"] if step["code"] == "TURBO")
    assert (turbo["state"], turbo["missing"][-1]) == ("waits", f"Waits for: {NAME}, no turnaround yet")


def test_until_it_is_sent_its_days_count_from_today(stage: Stage, clock: Clock) -> None:
    _, readiness = accepted(stage, starts_after="")
    clock(local(7, 8))
    later = stage.client.get(f"jobs/{readiness['job']['id']}/readiness").json()
    turbo = next(step for step in later["steps"] if step["code"] == "TURBO")
    assert f"Waits for: {NAME}, back Thu 10 Dec if the firm starts today" in turbo["missing"]
