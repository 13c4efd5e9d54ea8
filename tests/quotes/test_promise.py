"""The promise date of a quote: it moves with the choices and is frozen with the revision."""

import json
from datetime import date
from decimal import Decimal

import pytest
from django.utils import timezone

from kitting.models import KitRevision, Offer, Supplier
from quotes.models import Decision, Override, Revision
from quotes.presenters.customer import for_customer
from quotes.presenters.promise import customer_shape
from quotes.presenters.promise_date import promised_answer
from quotes.presenters.receipt import next_step, receipt_promise
from quotes.queries import frozen
from quotes.queries.pricing import figures
from quotes.queries.promise import Promised, draft_plan, promised
from shop.models import Calendar, ClosedDay, Job, Operation, RuleSet, Shop, Vehicle
from tests.client import CheckedClient
from tests.costs import keys_of
from tests.factories import JobFactory, KitLineFactory
from tests.quotes import dated
from tests.quotes.dated import Clock, change, leads, local, ready, send
from tests.quotes.open_gearbox import only, step
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage


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
    promise = stage.quote(stage.turbo).json()["promise"]
    assert promise["words"] == [
        "Turbocharger kit is here Mon 7 Dec 17:00",
        "work starts when the vehicle arrives, Tue 8 Dec 08:00",
        "then 3 steps (6.4 h): Set-up, protect, road test to Turbocharger fitted",
    ]
    assert [(leg["kind"], leg["since"]) for leg in promise["legs"]] == [
        ("arrival", "2026-12-07T16:00:00Z"),
        ("drop_off", "2026-12-08T07:00:00Z"),  # a day sooner gains no half day
        ("work", "2026-12-08T07:00:00Z"),
    ]
    assert [delivery["title"] for delivery in promise["coming"]] == [
        "Turbocharger kit",
        "engine oil, 5W-30",
    ]  # each once
    assert [step["code"] for step in promise["schedule"]] == ["SETUP", "BUMPER", "TURBO"]
    assert [(day["day"], day["opens"] is not None) for day in promise["days"]][4:7] == [
        ("2026-12-05", False),
        ("2026-12-06", False),
        ("2026-12-07", True),
    ]
    assert promise["how"]["steps"][0] == {"words": "Hours of the work", "figure": "6.4 h"}
    assert {"words": "Open Mon to Fri, 08:00 to 12:00 and 13:00 to 17:00", "figure": "8 h"} in promise["how"]["steps"]


def test_a_later_vehicle_a_closed_day_and_a_persons_own_hours_move_it(stage: Stage) -> None:
    draft = stage.quote(stage.turbo).json()
    later = change(stage, draft, here_from="2026-12-12")
    assert (later["here_from"], ready(later)) == ("2026-12-12", "Mon 14 Dec, in the afternoon")
    assert later["promise"]["words"][0] == "work starts when the vehicle arrives, Mon 14 Dec 08:00"
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


def test_a_vehicle_is_brought_on_its_day_where_work_may_only_begin_later(stage: Stage) -> None:
    draft = change(stage, stage.quote(stage.turbo).json(), here_from="2026-12-09")
    revision, now = Revision.objects.get(quote=draft["id"]), timezone.now()
    plan = draft_plan(revision, figures(revision, now))
    promise = promised(plan, stage.cast.shop, now, date(2026, 12, 14))
    assert isinstance(promise, Promised)
    words = customer_shape(promise, now)
    assert words["bring"] and (words["bring"]["day"], words["ready"]["day"]) == ("2026-12-09", "2026-12-22")
    assert next_step(words, date(2026, 12, 1), owes_deposit=False).startswith(
        "Please bring the vehicle on Wed 9 Dec by 08:00"
    )
    assert promised_answer(promise).words[0] == "work starts Mon 14 Dec 08:00"


def test_each_language_keeps_words_of_its_own(stage: Stage) -> None:
    british = stage.quote(stage.turbo).json()
    Shop.objects.update(language="en-US")
    american = stage.client.get(f"quotes/{british['id']}").json()
    assert american["promise"]["words"] != british["promise"]["words"]
    Shop.objects.update(language="en-GB")
    assert stage.client.get(f"quotes/{british['id']}").json()["promise"] == british["promise"]


def test_a_quote_that_is_read_again_soon_is_not_sent_again(stage: Stage, clock: Clock) -> None:
    Offer.objects.update(lead_days=0)
    draft = change(stage, stage.quote(stage.turbo).json(), here_from="2026-12-01")
    path = f"quotes/{draft['id']}"
    clock(local(1, 9, 1))
    first = stage.client.get(path)
    clock(local(1, 9, 14))
    assert stage.client.get(path, headers={"If-None-Match": first["ETag"]}).status_code == 304
    clock(local(1, 9, 15))
    assert stage.client.get(path, headers={"If-None-Match": first["ETag"]}).status_code == 200


def test_two_people_and_quick_ones_are_sooner_done(stage: Stage) -> None:
    rules = RULES | {"efficiency": "2", "technicians": 2}
    RuleSet.objects.create(shop=stage.cast.shop, number=2, valid_from=date(2026, 11, 1), rules=rules)
    promise = stage.quote(stage.turbo).json()["promise"]
    assert promise["ready"]["words"] == "Tue 8 Dec, in the morning"
    assert [step["figure"] for step in promise["how"]["steps"]][1:4] == ["2", "3 h 12 min", "2"]


def test_a_day_that_has_passed_is_told_and_counts_as_now(stage: Stage) -> None:
    draft = change(stage, stage.quote(stage.turbo).json(), here_from="2026-11-30")
    assert [notice["words"] for notice in draft["notices"] if notice["code"] == "here_from_past"] == [
        "The vehicle was to come on Mon 30 Nov 2026. Enter the day it comes, or tick that it is here."
    ]
    assert draft["stops"] == [] and ready(draft) == "Tue 8 Dec, in the afternoon"


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", "2026-02-30", "soon"])
def test_a_day_that_is_none_is_refused(stage: Stage, day: str) -> None:
    draft = stage.quote(stage.turbo).json()
    answer = stage.client.patch(f"quotes/{draft['id']}", {"here_from": day}, seen=f'"{draft["version"]}"')
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/here_from"


def test_what_nobody_has_dated_is_named_and_not_counted(stage: Stage) -> None:
    Offer.objects.exclude(part__in=[stage.turbo.part_id, stage.towing.part_id]).update(lead_days=None)
    promise = stage.quote().json()["promise"]
    assert promise["unknown"] == "No delivery date for engine oil, 5W-30; the date ignores it."
    assert promise["headline"] == "Expected ready Fri 11 Dec, afternoon; 1 part has no delivery date yet"
    assert {delivery["at"] for delivery in promise["coming"] if delivery["title"] == "engine oil, 5W-30"} == {None}


def test_a_supplier_has_days_of_its_own_where_its_offer_names_none(stage: Stage) -> None:
    leads(stage.turbo, None)
    assert stage.quote(stage.turbo).json()["promise"] is None
    leads(stage.turbo, 9)
    expected = ready(stage.quote(stage.turbo).json())
    leads(stage.turbo, None)
    seller = Offer.objects.get(part=stage.turbo.part).supplier_id
    Supplier.objects.filter(pk=seller).update(lead_days=9)
    assert ready(stage.quote(stage.turbo).json()) == expected


def test_without_the_day_of_a_whole_kit_there_is_no_date_and_the_supplier_is_named(stage: Stage) -> None:
    leads(stage.towing, None)
    draft = stage.quote().json()
    seller = Offer.objects.get(part=stage.towing.part).supplier.name
    counter = f"No date yet. Towing kit has no delivery date. Ask {seller} when to expect it."
    assert (draft["promise"], draft["no_promise"]) == (None, counter)
    sent = send(stage, draft)
    phone = Phone(sent["link"]["url"])
    customer = "We cannot give a date yet. Towing kit has no delivery date. Please call us."
    assert phone.html.count(customer) == 2 and "Expected ready" not in phone.html and seller not in phone.html
    assert json.loads(Revision.objects.get().snapshot)["plan"]["no_date"] == customer
    assert phone.answer().status_code == 303
    assert (Job.objects.get().here_from, Job.objects.get().promised_on) == (None, None)


def test_a_vehicle_that_is_here_is_worked_on_from_now_and_nobody_is_asked_to_bring_it(stage: Stage) -> None:
    draft = stage.quote(stage.turbo).json()
    assert draft["promise"]["bring"]["words"] == "Please bring the vehicle on Tue 8 Dec by 08:00, when we open."
    here = change(stage, change(stage, draft, here_from="2026-12-09"), here=True)
    assert (here["here"], here["here_from"], here["promise"]["bring"]) == (True, None, None)
    assert here["promise"]["schedule"][0]["start"] == "2026-12-01T08:00:00Z"
    assert here["promise"]["words"][0] == "work starts Tue 1 Dec 09:00"
    named = change(stage, here, here_from="2026-12-09")
    assert (named["here"], named["promise"]["bring"]["day"]) == (False, "2026-12-09")
    both = stage.client.patch(
        f"quotes/{draft['id']}", {"here": True, "here_from": "2026-12-09"}, seen=f'"{named["version"]}"'
    )
    assert both.status_code == 400 and both.json()["errors"][0]["pointer"] == "/here_from"


def test_the_job_keeps_the_answer_and_the_day_that_was_told(stage: Stage) -> None:
    sent = send(stage, stage.quote(stage.turbo).json())
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    job = Job.objects.get()
    assert (job.here, job.here_from, job.promised_on) == (False, date(2026, 12, 8), date(2026, 12, 8))
    here = send(stage, change(stage, stage.quote(stage.turbo).json(), here=True))
    assert Phone(here["link"]["url"]).answer().status_code == 303
    assert Job.objects.filter(here=True, here_from=None).count() == 1


def test_other_vehicles_of_that_week_are_counted_for_the_workshop_alone(stage: Stage) -> None:
    draft = stage.quote(stage.turbo).json()
    assert draft["promise"]["others"] is None
    for n in range(3):
        Phone(send(stage, stage.quote(stage.turbo).json())["link"]["url"]).answer()
        sentences = stage.client.get(f"quotes/{draft['id']}").json()["promise"]["others"]
        assert sentences == (
            f"{n + 1} other vehicles are promised that week." if n else "1 other vehicle is promised that week."
        )
    Job.objects.filter(number=1).update(state=Job.State.HANDED_OVER)
    Job.objects.filter(number=2).update(promised_on=date(2026, 12, 14))  # the Monday of the week after
    JobFactory(shop=stage.cast.elsewhere, promised_on=Job.objects.get(number=3).promised_on)
    sentences = stage.client.get(f"quotes/{draft['id']}").json()["promise"]["others"]
    assert sentences == "1 other vehicle is promised that week."
    reach = stage.client.get(f"jobs/{Job.objects.get(number=3, shop=stage.cast.shop).pk}/readiness").json()
    assert reach["promise"] and reach["promise"]["others"] is None  # it does not count itself
    assert "promised that week" not in Phone(send(stage, draft)["link"]["url"]).html


def test_an_accepted_quote_keeps_the_day_that_was_told(stage: Stage, clock: Clock) -> None:
    sent = send(stage, stage.quote(stage.turbo).json())
    Phone(sent["link"]["url"]).answer()
    path = f"quotes/{sent['quote']['id']}"
    words = ready(stage.client.get(path).json())
    clock(local(8))
    assert ready(stage.client.get(path).json()) == words


def test_a_plan_that_was_frozen_before_there_were_three_answers_is_read(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The form frozen until 26 Nov 2026: neither marks nor suppliers, and a null for a vehicle without a day."""
    sent = send(stage, stage.quote().json())
    content = frozen.read(Revision.objects.get())
    del (
        content["plan"]["here"],
        content["plan"]["no_date"],
        content["plan"]["promised"]["bring"],
        content["plan"]["promised"]["headline"],
    )
    for delivery in content["plan"]["coming"]:
        del delivery["whole"], delivery["supplier"]
    monkeypatch.setattr(frozen, "read", lambda revision: content)
    path = f"quotes/{sent['quote']['id']}"
    assert ready(stage.client.get(path).json()) == "Fri 11 Dec, in the afternoon"
    assert "Expected ready Fri 11 Dec, afternoon" in Phone(sent["link"]["url"]).html
    for delivery in content["plan"]["coming"]:
        delivery["lead_days"] = None if delivery["title"] == "Towing kit" else delivery["lead_days"]
    assert stage.client.get(path).json()["no_promise"].startswith("No date yet. Towing kit has no delivery date.")


def test_the_record_of_an_acceptance_from_before_there_was_a_headline_is_shown(stage: Stage) -> None:
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    phone.answer()
    record = Decision.objects.get().record
    for name in ("headline", "bring"):
        del record["promise"]["told"][name], record["promise"]["whole"][name]
    del record["promise"]["whole"]["others"]
    sentence = receipt_promise(record)
    assert sentence is not None and sentence["headline"] == "Expected ready Fri 11 Dec, in the afternoon"
    assert (
        next_step(sentence, date(2026, 12, 1), owes_deposit=False)
        == "Please bring the vehicle on Thu 10 Dec 2026. Until then there is nothing to do."
    )


def test_a_part_for_another_vehicle_holds_nothing_up(stage: Stage) -> None:
    """Only what is in the box for this vehicle says when the box is needed."""
    revision = KitRevision.objects.get(kit=stage.towing)
    revision.lines.filter(kind="part").delete()
    setup = Operation.objects.get(code="SETUP")
    at = {"revision": revision, "position": 90, "operation": setup}
    wiring = Operation.objects.get(code="WIRING")
    KitLineFactory(shop=stage.cast.shop, revision=revision, position=91, operation=wiring)
    KitLineFactory(shop=stage.cast.shop, conditions=[{"attribute": "transmission", "in": ["automatic"]}], **at)
    promise = stage.quote(stage.towing).json()["promise"]
    assert {delivery["operation"] for delivery in promise["coming"]} == {"WIRING"}


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


def test_hours_that_begin_before_the_work_is_done_move_the_date_and_stand_in_its_explanation(stage: Stage) -> None:
    draft = stage.quote(stage.turbo).json()
    week = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), [["10:00", "12:00"]])
    Calendar.objects.create(shop=stage.cast.shop, valid_from=date(2026, 12, 9), week=week)
    assert ready(stage.client.get(f"quotes/{draft['id']}").json()) == ready(draft), "done by then"
    Calendar.objects.filter(valid_from=date(2026, 12, 9)).update(valid_from=date(2026, 12, 8))
    moved = stage.client.get(f"quotes/{draft['id']}").json()["promise"]
    assert (ready(draft), moved["ready"]["words"]) == ("Tue 8 Dec, in the afternoon", "Thu 10 Dec, in the morning")
    assert "From Tue 8 Dec on open Mon to Fri, 10:00 to 12:00" in [step["words"] for step in moved["how"]["steps"]]


def test_a_sent_version_keeps_its_plan_and_tells_the_date_of_today(stage: Stage, clock: Clock) -> None:
    sent = send(stage, change(stage, stage.quote().json(), here_from="2026-12-03"))["quote"]
    leads(stage.towing, 90)
    clock(local(2))
    assert ready(stage.client.get(f"quotes/{sent['id']}").json()) == "Mon 14 Dec, in the afternoon"
    plan = json.loads(Revision.objects.get().snapshot)["plan"]
    assert {delivery["lead_days"] for delivery in plan["coming"] if delivery["title"] == "Towing kit"} == {9}
    assert plan["promised"]["ready"] == {
        "day": "2026-12-11",
        "half": "afternoon",
        "words": "Fri 11 Dec, in the afternoon",
    }
    assert (plan["here_from"], plan["technicians"], plan["efficiency"]) == ("2026-12-03", 1, "1")
    assert not {key for key in keys_of(plan) if "cost" in key or "price" in key}


def test_the_customers_copy_has_the_day_and_not_the_workshops_plan(stage: Stage) -> None:
    send(stage, stage.quote().json())
    content = json.loads(Revision.objects.get().snapshot)
    assert for_customer(content)["plan"] == {"promised": content["plan"]["promised"], "no_date": None, "waits": ""}
    assert "plan" not in for_customer({name: value for name, value in content.items() if name != "plan"})


def test_the_next_version_and_the_job_keep_the_day_the_vehicle_comes(stage: Stage) -> None:
    sent = send(stage, change(stage, stage.quote().json(), here_from="2026-12-03"))["quote"]
    draft = stage.client.post(f"quotes/{sent['id']}/revise").json()
    assert draft["here_from"] == "2026-12-03"
    link = send(stage, change(stage, draft, here_from="2026-12-10"))["link"]
    assert Phone(link["url"]).answer().status_code == 303
    assert Job.objects.get().here_from == date(2026, 12, 10)


def test_a_version_from_before_there_were_dates_says_so(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    sent = send(stage, stage.quote().json())
    read = frozen.read
    monkeypatch.setattr(
        frozen, "read", lambda revision: {name: value for name, value in read(revision).items() if name != "plan"}
    )
    path = f"quotes/{sent['quote']['id']}"
    words = "No date: this version was sent before dates were recorded."
    assert stage.client.get(path).json()["no_promise"] == words
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    assert stage.client.get(path).json()["no_promise"] == words


def test_a_date_that_cannot_be_counted_is_a_sentence_and_locks_nothing(stage: Stage) -> None:
    Operation.objects.filter(code="TURBO").update(wait_after=2_000_000_000)
    draft = stage.quote(stage.turbo).json()
    assert draft["promise"] is None
    assert draft["no_promise"] == "No date: it lies more than 20 years ahead. Look at the hours of the work."
    Override.objects.create(
        shop=stage.cast.shop,
        revision=Revision.objects.get(),
        figure="labour:BUMPER",
        own_value=Decimal(90_000_000),
        reason="x",
    )
    slow = stage.client.get(f"quotes/{draft['id']}").json()
    assert slow["no_promise"] == draft["no_promise"]


def test_a_stranger_sees_no_date_and_sets_none(stage: Stage) -> None:
    draft = stage.quote().json()
    stranger: CheckedClient = stage.cast.signed_in("stranger")
    path = f"/api/v1/shops/elsewhere/quotes/{draft['id']}"
    assert stranger.get(path).status_code == 404
    assert stranger.patch(path, {"here_from": "2026-12-03"}, seen='"1"').status_code == 404
    assert Revision.objects.get().here_from is None


def test_each_price_of_an_open_gearbox_has_its_own_half_day(stage: Stage) -> None:
    """The half days are those of a quote with the value recorded: 12 h more make it a day and a half later."""
    step(stage, "COOLER", "12.40", only("transmission", "automatic"))
    step(stage, "CLUTCH", "0.40", only("transmission", "manual"))
    drafts = {}
    for recorded in ("", "manual", "automatic"):
        Vehicle.objects.filter(pk=stage.vehicle.pk).update(attributes={"transmission": recorded})
        drafts[recorded] = stage.quote().json()
    manual, automatic = (price["ready"] for price in drafts[""]["undecided"]["prices"])
    assert manual != automatic
    assert drafts["manual"]["promise"]["headline"] == drafts[""]["promise"]["headline"]
    assert manual in drafts["manual"]["promise"]["headline"] and automatic in drafts["automatic"]["promise"]["headline"]
