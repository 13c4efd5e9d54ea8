"""The promise date of a quote: it moves with the choices, is frozen with the issue, and is told to the customer."""

import json
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kitting.models import Kit, KitRevision, Offer
from quotes import snapshots
from quotes.models import Decision, Override, Quote, Revision
from quotes.presenting import for_customer
from shop.models import Calendar, ClosedDay, Job, Operation, RuleSet, TemplateStep
from tests.cast import Cast
from tests.client import CheckedClient
from tests.costs import keys_of
from tests.factories import KitLineFactory
from tests.quotes.stage import RULES, Stage, make_stage
from tests.quotes.test_customer_page import Phone

ZONE = ZoneInfo("Europe/Berlin")
OPEN = [["08:00", "12:00"], ["13:00", "17:00"]]
Clock = Callable[[datetime], None]


def local(day: int, hour: int = 9, minute: int = 0) -> datetime:
    return datetime(2026, 12, day, hour, minute, tzinfo=ZONE)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    """Sets the server's clock; it starts on Tue 1 Dec 2026, 9:00 in the shop."""

    def to(instant: datetime) -> None:
        monkeypatch.setattr(timezone, "now", lambda: instant.astimezone(UTC))

    to(local(1))
    return to


@pytest.fixture
def stage(cast: Cast, clock: Clock) -> Stage:
    """The turbocharger kit comes in 5 days, the towing kit in 9, oil in 2; open on weekdays."""
    stage = make_stage(cast)
    Calendar.objects.create(shop=cast.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    Offer.objects.filter(shop=cast.shop).update(lead_days=2)
    leads(stage.turbo, 5)
    leads(stage.towing, 9)
    return stage


def leads(kit: Kit, days: int | None) -> None:
    Offer.objects.filter(part=kit.part).update(lead_days=days)


def ready(quote: dict[str, Any]) -> str:
    return quote["promise"]["ready"]["words"]


def change(stage: Stage, quote: dict[str, Any], **wanted: Any) -> dict[str, Any]:
    answer = stage.client.patch(f"quotes/{quote['id']}", wanted, seen=f'"{quote["version"]}"')
    assert answer.status_code == 200, answer.content
    return answer.json()


def send(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    answer = stage.client.post(f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "x"})
    assert answer.status_code == 201, answer.content
    return answer.json()


def test_a_draft_moves_as_a_kit_goes_off_and_comes_back(stage: Stage) -> None:
    draft = stage.quote().json()
    assert ready(draft) == "Fri 11 Dec, in the afternoon"  # the towing kit is here on Thursday as the shop closes
    line = draft["kits"][1]["line"]
    path = f"quotes/{draft['id']}/lines"
    less = stage.client.delete(f"{path}/{line}", seen=f'"{draft["version"]}"').json()
    assert ready(less) == "Tue 8 Dec, in the afternoon"
    more = stage.client.post(path, {"kind": "kit", "kit": str(stage.towing.pk)}).json()
    assert ready(more) == "Fri 11 Dec, in the afternoon"


def test_it_says_the_way_and_draws_it(stage: Stage) -> None:
    found = stage.quote(stage.turbo).json()["promise"]
    assert found["words"] == [
        "begins when the vehicle is here, Mon 7 Dec 08:00",
        "then one step, 1.5 h: Set-up, protect, road test",
        "Turbocharger kit is here Mon 7 Dec 17:00",
        "then 2 steps, 4.9 h, from Front bumper off and on to Turbocharger fitted",
    ]
    assert [(leg["kind"], leg["since"]) for leg in found["legs"]][1:] == [
        ("work", "2026-12-07T07:00:00Z"),  # what needs nothing is done on the day of the parts
        ("arrival", "2026-12-07T16:00:00Z"),
        ("work", "2026-12-08T07:00:00Z"),
    ]
    assert [each["title"] for each in found["coming"]] == ["Turbocharger kit", "engine oil, 5W-30"]  # each once
    assert [step["code"] for step in found["schedule"]] == ["SETUP", "BUMPER", "TURBO"]
    assert [(day["day"], day["opens"] is not None) for day in found["days"]][4:7] == [
        ("2026-12-05", False),
        ("2026-12-06", False),
        ("2026-12-07", True),
    ]
    assert found["how"]["steps"][0] == {"words": "Hours of the work", "figure": "6.4 h"}
    assert {"words": "Open Mon to Fri, 08:00 to 12:00, 13:00 to 17:00", "figure": "8 h"} in found["how"]["steps"]


def test_a_later_vehicle_a_closed_day_and_a_persons_own_hours_move_it(stage: Stage) -> None:
    draft = stage.quote(stage.turbo).json()
    later = change(stage, draft, here_from="2026-12-12")
    assert (later["here_from"], ready(later)) == ("2026-12-12", "Mon 14 Dec, in the afternoon")
    assert later["promise"]["words"][0] == "begins when the vehicle is here, Mon 14 Dec 08:00"
    ClosedDay.objects.create(shop=stage.cast.shop, date=date(2026, 12, 14))
    assert ready(stage.client.get(f"quotes/{draft['id']}").json()) == "Tue 15 Dec, in the afternoon"
    hours = {"value": "9.0", "because": "rust"}
    path = f"quotes/{draft['id']}/overrides/labour:TURBO"
    slow = stage.client.put(path, hours, seen=f'"{later["version"]}"').json()
    assert ready(slow) == "Wed 16 Dec, in the afternoon"
    ClosedDay.objects.create(shop=stage.cast.shop, date=date(2026, 12, 1))  # today
    now = change(stage, slow, here_from=None)
    assert now["promise"]["schedule"][0]["start"] == "2026-12-07T07:00:00Z"
    assert ready(now) == "Wed 9 Dec, in the morning"


def test_a_quote_that_is_read_again_soon_is_not_sent_again(stage: Stage, clock: Clock) -> None:
    Offer.objects.update(lead_days=0)
    path = f"quotes/{stage.quote(stage.turbo).json()['id']}"
    clock(local(1, 9, 1))
    first = stage.client.get(path)
    clock(local(1, 9, 14))
    assert stage.client.get(path, headers={"If-None-Match": first["ETag"]}).status_code == 304
    clock(local(1, 9, 15))
    assert stage.client.get(path, headers={"If-None-Match": first["ETag"]}).status_code == 200


def test_two_people_and_quick_ones_are_sooner_done(stage: Stage) -> None:
    rules = RULES | {"efficiency": "2", "technicians": 2}
    RuleSet.objects.create(shop=stage.cast.shop, number=2, valid_from=date(2026, 11, 1), rules=rules)
    found = stage.quote(stage.turbo).json()["promise"]
    assert found["ready"]["words"] == "Tue 8 Dec, in the morning"
    assert [step["figure"] for step in found["how"]["steps"]][1:4] == ["2", "3 h 12 min", "2"]


def test_a_day_that_has_passed_is_told_and_counts_as_now(stage: Stage) -> None:
    found = change(stage, stage.quote(stage.turbo).json(), here_from="2026-11-30")
    assert [each["words"] for each in found["notices"] if each["code"] == "here_from_past"] == [
        "The vehicle was to come on Mon 30 Nov 2026. Say which day it comes, or that it is here."
    ]
    assert found["stops"] == [] and ready(found) == "Tue 8 Dec, in the afternoon"


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", "2026-02-30", "soon"])
def test_a_day_that_is_none_is_refused(stage: Stage, day: str) -> None:
    draft = stage.quote(stage.turbo).json()
    answer = stage.client.patch(f"quotes/{draft['id']}", {"here_from": day}, seen=f'"{draft["version"]}"')
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/here_from"


def test_what_nobody_has_dated_is_named_and_not_counted(stage: Stage) -> None:
    leads(stage.towing, None)
    found = stage.quote().json()["promise"]
    assert found["unknown"] == "Nobody has said when Towing kit comes: the date does not count it."
    assert found["ready"]["words"] == "Tue 8 Dec, in the afternoon"
    assert {each["at"] for each in found["coming"] if each["title"] == "Towing kit"} == {None}


def test_a_part_for_another_vehicle_holds_nothing_up(stage: Stage) -> None:
    """Only what is in the box for this vehicle says when the box is needed."""
    revision = KitRevision.objects.get(kit=stage.towing)
    revision.lines.filter(kind="part").delete()
    setup = Operation.objects.get(code="SETUP")
    at = {"revision": revision, "position": 90, "operation": setup}
    wiring = Operation.objects.get(code="WIRING")
    KitLineFactory(shop=stage.cast.shop, revision=revision, position=91, operation=wiring)
    KitLineFactory(shop=stage.cast.shop, when=[{"attribute": "transmission", "in": ["automatic"]}], **at)
    found = stage.quote(stage.towing).json()["promise"]
    assert {each["operation"] for each in found["coming"]} == {"WIRING"}


def test_without_opening_hours_or_work_there_is_a_sentence_and_no_date(stage: Stage) -> None:
    empty = stage.client.post("quotes", {"kits": []}).json()
    assert (empty["promise"], empty["no_promise"]) == (None, "No date: there is no work on it yet.")
    Calendar.objects.update(week={"mon": []})
    draft = stage.quote().json()
    assert draft["promise"] is None and draft["no_promise"].startswith("No date: the workshop's opening hours")
    sent = send(stage, draft)
    assert sent["quote"]["no_promise"] == draft["no_promise"]
    phone = Phone(sent["link"]["url"])
    assert "Ready" not in phone.html and 'name="ready"' not in phone.html
    assert phone.answer().status_code == 303 and Decision.objects.get().record["promise"] is None


def test_a_sent_issue_keeps_its_plan_and_tells_the_date_of_today(stage: Stage, clock: Clock) -> None:
    sent = send(stage, change(stage, stage.quote().json(), here_from="2026-12-03"))["quote"]
    leads(stage.towing, 90)
    clock(local(2))
    assert ready(stage.client.get(f"quotes/{sent['id']}").json()) == "Mon 14 Dec, in the afternoon"
    plan = json.loads(Revision.objects.get().snapshot)["plan"]
    assert {each["lead_days"] for each in plan["coming"] if each["title"] == "Towing kit"} == {9}
    assert plan["promised"]["ready"] == {
        "day": "2026-12-11",
        "half": "afternoon",
        "words": "Fri 11 Dec, in the afternoon",
    }
    assert (plan["here_from"], plan["technicians"], plan["efficiency"]) == ("2026-12-03", 1, "1")
    assert not {key for key in keys_of(plan) if "cost" in key or "price" in key}


def test_the_customers_copy_has_the_day_and_not_the_workshops_plan(stage: Stage) -> None:
    send(stage, stage.quote().json())
    kept = json.loads(Revision.objects.get().snapshot)
    assert for_customer(kept)["plan"] == {"promised": kept["plan"]["promised"]}
    assert "plan" not in for_customer({name: each for name, each in kept.items() if name != "plan"})


def test_the_next_issue_and_the_job_keep_the_day_the_vehicle_comes(stage: Stage) -> None:
    sent = send(stage, change(stage, stage.quote().json(), here_from="2026-12-03"))["quote"]
    draft = stage.client.post(f"quotes/{sent['id']}/revise").json()
    assert draft["here_from"] == "2026-12-03"
    link = send(stage, change(stage, draft, here_from="2026-12-10"))["link"]
    assert Phone(link["url"]).answer().status_code == 303
    assert Job.objects.get().here_from == date(2026, 12, 10)


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return send(stage, stage.quote().json())


@pytest.fixture
def phone(sent: dict[str, Any]) -> Phone:
    return Phone(sent["link"]["url"])


def test_the_customer_reads_a_half_day_and_what_it_waits_for(stage: Stage, phone: Phone) -> None:
    for wanted in (
        "Ready Fri 11 Dec, in the afternoon",
        "If you say yes today it can be ready on Fri 11 Dec, in the afternoon.",
        "The day is not part of the price.",
        "You say yes",
        '<time datetime="2026-12-10">10 Dec<small>Thu</small></time>',
        "Here by the end of the day: Towing kit",
        "We begin; the vehicle has to be with us",
    ):
        assert wanted in phone.html
    told = phone.html.split('id="s-ready"')[1].split("</section>")[0]
    assert "SETUP" not in told and "BUMPER" not in told and ":00" not in told  # no codes, never a minute
    assert phone.field("ready") == "2026-12-11 afternoon"


def test_the_day_on_the_page_is_the_one_of_today_and_names_the_vehicles_coming(stage: Stage, clock: Clock) -> None:
    draft = change(stage, stage.quote(stage.turbo).json(), here_from="2026-12-09")
    link = send(stage, draft)["link"]
    clock(local(3))
    html = Phone(link["url"]).html
    assert "If you say yes today it can be ready on Wed 9 Dec, in the afternoon." in html
    assert "You bring the vehicle" in html and "the vehicle has to be with us" not in html


@pytest.mark.parametrize(("minutes", "told"), [(30, ""), (720, "It stands for 12 h after: Front bumper off and on")])
def test_long_waits_are_told_and_short_ones_are_part_of_the_work(stage: Stage, minutes: int, told: str) -> None:
    Operation.objects.filter(code="BUMPER").update(wait_after=minutes)
    TemplateStep.objects.filter(operation__code="TURBO").update(after=["BUMPER"])
    draft = stage.quote(stage.turbo).json()
    assert any("to wait after Front bumper" in words for words in draft["promise"]["words"])
    html = Phone(send(stage, draft)["link"]["url"]).html
    assert ("It stands for" in html) == bool(told) and told in html


def test_an_unknown_arrival_is_told_to_the_customer_too(stage: Stage) -> None:
    leads(stage.towing, None)
    html = Phone(send(stage, stage.quote().json())["link"]["url"]).html
    assert "We do not know yet when this comes, so the day does not count it: Towing kit." in html


def test_yes_keeps_the_day_with_the_answer_and_the_receipt_says_it(stage: Stage, phone: Phone, clock: Clock) -> None:
    answer = phone.answer(ready=phone.field("ready"))
    assert answer.status_code == 303
    kept = Decision.objects.get().record["promise"]
    assert kept["ready"] == {"day": "2026-12-11", "half": "afternoon", "words": "Fri 11 Dec, in the afternoon"}
    assert "Thu 10 Dec: Here by the end of the day: Towing kit" in kept["words"]
    clock(local(20))
    receipt = phone.client.get(answer["Location"]).content.decode()
    assert "Ready Fri 11 Dec, in the afternoon, as things stood when you said yes." in receipt
    quote = stage.client.get(f"quotes/{Quote.objects.get().pk}").json()
    assert (quote["state"], ready(quote)) == ("accepted", "Fri 11 Dec, in the afternoon")
    assert not {key for key in keys_of(kept) if "cost" in key}


def test_a_day_that_moved_is_shown_before_the_yes_counts(stage: Stage, phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    clock(local(2))
    refused = phone.answer(ready=seen)
    phone.html = refused.content.decode()
    assert refused.status_code == 409 and not Decision.objects.exists() and not Job.objects.exists()
    assert Revision.objects.get().state == "sent"
    for wanted in ("The day has moved", "Fri 11 Dec, in the afternoon", "Mon 14 Dec, in the afternoon"):
        assert wanted in phone.html
    assert 'value="Maren Oldacre"' in phone.html and "checked" in phone.html
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    assert Decision.objects.get().record["promise"]["ready"]["day"] == "2026-12-14"


def test_a_moved_day_is_told_too_when_something_else_was_wrong(phone: Phone, clock: Clock) -> None:
    seen = phone.field("ready")
    clock(local(2))
    answer = phone.answer(ready=seen, name=" ")
    assert answer.status_code == 400
    html = answer.content.decode()
    assert "Type your full name" in html and "The day has moved" in html
    same = phone.answer(ready=phone_value(html), name=" ").content.decode()
    assert "Type your full name" in same and "The day has moved" not in same


def phone_value(html: str) -> str:
    return html.split('name="ready" value="')[1].split('"')[0]


def test_an_earlier_day_is_no_reason_to_ask_again(stage: Stage, phone: Phone) -> None:
    assert phone.answer(ready="2026-12-12 morning").status_code == 303
    assert Decision.objects.get().record["promise"]["ready"]["day"] == "2026-12-11"


@pytest.mark.parametrize("shown", ["", "nonsense", "2026-12-01", "2026-12-01 noon", "x" * 4000])
def test_a_page_that_carries_no_day_is_not_compared(phone: Phone, shown: str) -> None:
    assert phone.answer(ready=shown).status_code == 303


def test_a_day_that_cannot_be_told_any_more_is_asked_about_before_the_yes_counts(stage: Stage, phone: Phone) -> None:
    seen = phone.field("ready")
    week = Calendar.objects.get().week
    Calendar.objects.update(week={})
    refused = phone.answer(ready=seen)
    phone.html = refused.content.decode()
    assert refused.status_code == 409 and not Decision.objects.exists()
    assert "Fri 11 Dec, in the afternoon" in phone.html and "No day can be told now" in phone.html
    assert phone.answer().status_code == 303  # the page that says so carries no day
    Calendar.objects.update(week=week)
    found = stage.client.get(f"quotes/{Quote.objects.get().pk}").json()
    assert (found["state"], found["promise"]) == ("accepted", None)
    assert found["no_promise"] == "No date was kept: none could be told when the customer said yes."


def test_an_issue_from_before_there_were_dates_says_so(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    sent = send(stage, stage.quote().json())
    read = snapshots.read
    monkeypatch.setattr(
        snapshots, "read", lambda revision: {name: each for name, each in read(revision).items() if name != "plan"}
    )
    path = f"quotes/{sent['quote']['id']}"
    told = "No date was kept: this issue was sent before dates were."
    assert stage.client.get(path).json()["no_promise"] == told
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    assert stage.client.get(path).json()["no_promise"] == told


def test_a_date_that_cannot_be_counted_is_a_sentence_and_locks_nothing(stage: Stage) -> None:
    Operation.objects.filter(code="TURBO").update(wait_after=2_000_000_000)
    draft = stage.quote(stage.turbo).json()
    assert draft["promise"] is None
    assert draft["no_promise"] == "No date: it lies more than 20 years ahead. Look at the hours of the work."
    Override.objects.create(
        shop=stage.cast.shop,
        revision=Revision.objects.get(),
        key="labour:BUMPER",
        value=Decimal(90_000_000),
        because="x",
    )
    slow = stage.client.get(f"quotes/{draft['id']}").json()
    assert slow["no_promise"] == draft["no_promise"]


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


def test_an_issue_from_before_there_were_plans_shows_nothing_and_can_be_accepted(
    stage: Stage, sent: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = json.loads(Revision.objects.get().snapshot)
    del kept["plan"]
    monkeypatch.setattr("quotes.snapshots.read", lambda revision: kept)
    phone = Phone(sent["link"]["url"])
    assert "If you say yes today" not in phone.html and 'name="ready"' not in phone.html
    assert stage.client.get(f"quotes/{sent['quote']['id']}").json()["promise"] is None
    assert phone.answer().status_code == 303
    assert "as things stood" not in phone.client.get(f"{phone.page}receipt").content.decode()
    assert stage.client.get(f"quotes/{sent['quote']['id']}").json()["promise"] is None


def test_a_stranger_sees_no_date_and_sets_none(stage: Stage) -> None:
    draft = stage.quote().json()
    stranger: CheckedClient = stage.cast.signed_in("stranger")
    path = f"/api/v1/shops/elsewhere/quotes/{draft['id']}"
    assert stranger.get(path).status_code == 404
    assert stranger.patch(path, {"here_from": "2026-12-03"}, seen='"1"').status_code == 404
    assert Revision.objects.get().here_from is None


def test_the_page_and_the_yes_ask_the_database_no_more_for_a_larger_quote(stage: Stage) -> None:
    def cost(act: Callable[[], Any], status: int) -> int:
        with CaptureQueriesContext(connection) as found:
            assert act().status_code == status
        return len(found)

    def page(phone: Phone) -> int:
        return cost(lambda: phone.client.get(phone.page), 200)

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
