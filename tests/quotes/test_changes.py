"""A change to an open job is a small quote of its own, which adds and takes away; on acceptance the job follows."""

from decimal import Decimal

import pytest

from kitting.models import KitCopy, PullLine, PullList
from quotes.models import Decision, Quote
from shop.models import Agreement, Job, JobOperation
from tests.quotes.changing import accept, begin, job_of, off, send, text_line
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR

pytestmark = pytest.mark.once


@pytest.fixture
def job(stage: Stage) -> Job:
    """Opened by the acceptance of both kits."""
    return job_of(stage)


@pytest.fixture
def towing_job(stage: Stage) -> Job:
    return job_of(stage, stage.towing)


def test_a_change_keeps_customer_vehicle_and_rules_of_its_job(stage: Stage, job: Job) -> None:
    change = begin(stage, job)
    assert (change["customer"]["name"], change["vehicle"]["id"]) == ("Maren Oldacre", str(job.vehicle_id))
    assert change["change"]["number"] == 1 and change["change"]["before"] == "3207.38"
    assert change["change"]["opener"] == str(Quote.objects.get(job=job, additional=False).pk)
    other = stage.client.patch(f"quotes/{change['id']}", {"customer": None}, seen=f'"{change["version"]}"')
    assert other.status_code == 409


def test_a_change_that_is_declined_says_that_the_job_stays(stage: Stage, job: Job) -> None:
    phone = Phone(send(stage, text_line(stage, begin(stage, job)))["link"]["url"])
    assert "Agreed with this change" in phone.html
    phone.answer("decline")
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert "You declined this quote" in receipt and f"Your job J-{job.number} stays as it was agreed." in receipt
    assert "Agreed with this change" not in receipt and "This changes what you agreed" not in receipt


def test_a_line_of_a_change_is_added_without_what_is_charged_once_a_visit(stage: Stage, job: Job) -> None:
    change = text_line(stage, begin(stage, job))
    assert change["totals"]["gross"] == "90.00" and change["fees"] == []
    assert change["change"]["after"] == "3297.38"


def test_an_accepted_change_is_a_further_agreement_on_the_job(stage: Stage, job: Job) -> None:
    phone = accept(stage, text_line(stage, begin(stage, job)))
    assert Job.objects.count() == 1 and Quote.objects.filter(job=job).count() == 2
    assert [row.number for row in Agreement.objects.filter(job=job).order_by("number")] == [1, 2]
    page = phone.client.get(phone.page).content.decode()
    assert f"Change to your job {job}" in page and "3,297.38" in page and "3,207.38" in page


def test_an_added_kit_brings_the_steps_that_the_job_has_not_and_its_parts(stage: Stage, towing_job: Job) -> None:
    before = set(JobOperation.objects.filter(job=towing_job).values_list("code", flat=True))
    change = begin(stage, towing_job)
    change = stage.client.post(f"quotes/{change['id']}/lines", {"kind": "kit", "kit": str(stage.turbo.pk)}).json()
    hours = {work["code"]: work["hours"] for work in change["labour"]["operations"]}
    assert hours == {"SETUP": "0.0", "BUMPER": "0.0", "TURBO": "3.0"}  # the job has set-up and bumper already
    assert [kit["letter"] for kit in change["kits"]] == ["B"]
    accept(stage, change)
    second = Agreement.objects.get(job=towing_job, number=2)
    added = JobOperation.objects.filter(job=towing_job, origin=second)
    assert {step.code for step in added} == {"TURBO"} and "TURBO" not in before
    assert PullLine.objects.filter(pull_list__job=towing_job, origin=second, kind="box").count() == 3
    assert KitCopy.objects.filter(job=towing_job).count() == 2


def test_added_work_stands_in_its_place_and_more_hours_of_a_step_are_a_step(stage: Stage) -> None:
    job = job_of(stage, stage.turbo)
    change = begin(stage, job)
    change = stage.client.post(f"quotes/{change['id']}/lines", {"kind": "kit", "kit": str(stage.towing.pk)}).json()
    hours = {work["code"]: work["hours"] for work in change["labour"]["operations"]}
    assert hours == {"SETUP": "0.3", "BUMPER": "0.1", "WIRING": "2.0"}  # the job has less of the first two
    accept(stage, change)
    steps = stage.client.get(f"jobs/{job.pk}").json()["operations"]
    assert [(step["position"], step["code"], step["hours"], step["added"]) for step in steps] == [
        (1, "SETUP", "1.5", False),
        (2, "SETUP~2", "0.3", True),
        (3, "BUMPER", "1.9", False),
        (4, "BUMPER~2", "0.1", True),
        (5, "WIRING", "2.0", True),
        (6, "TURBO", "3.0", False),
    ]
    ready = stage.client.get(f"jobs/{job.pk}/readiness").json()["steps"]
    assert [step["code"] for step in ready] == [step["code"] for step in steps]
    extra = JobOperation.objects.get(code="BUMPER~2")
    parts = PullLine.objects.filter(origin=extra.origin, operation="BUMPER")
    assert parts.exists() and set(parts.values_list("step", flat=True)) == {extra.pk}
    taken = off(stage, begin(stage, job), *{work["title"] for work in change["labour"]["operations"]})
    assert {line["hours"] for line in taken["taken"] if line["kind"] == "labour"} >= {"0.3", "2.0"}


def test_the_page_of_an_open_change_names_what_was_agreed_since(stage: Stage) -> None:
    """Two changes of 90 are open; the first is agreed to while the second waits."""
    job = job_of(stage)
    first, second = (text_line(stage, begin(stage, job)) for _ in range(2))
    waiting, agreed = Phone(send(stage, second)["link"]["url"]), send(stage, first)
    words = "The job has changed since this was sent: 3,297.38 agreed so far, 3,387.38 EUR with this change."
    assert words not in waiting.html
    assert Phone(agreed["link"]["url"]).answer().status_code == 303
    assert words in waiting.client.get(waiting.page).content.decode()
    assert words in stage.client.get(f"quotes/{second['id']}/as-customer").content.decode()


def test_a_change_that_only_removes_begins_nothing_and_waits_for_no_withdrawal_period(stage: Stage) -> None:
    stage.enact(FAIR)
    job = job_of(stage)
    adding = Phone(send(stage, text_line(stage, begin(stage, job)))["link"]["url"])
    assert "withdrawal period" in adding.html and 'id="consent-early"' in adding.html
    removing = accept(stage, off(stage, begin(stage, job), "Turbocharger kit"))
    assert "withdrawal period" not in removing.html
    assert Decision.objects.latest("answered_at").record["not_before"] is None


def test_a_kit_that_is_taken_off_takes_its_own_work_and_parts_with_it(stage: Stage, job: Job) -> None:
    change = off(stage, begin(stage, job), "Turbocharger kit")
    taken = {line["kind"]: line["price"] for line in change["taken"]}
    assert set(taken) == {"kit", "labour", "need"} and len(change["taken"]) == 3
    assert Decimal(change["totals"]["gross"]) == sum(map(Decimal, taken.values()))
    assert change["totals"]["taken"] == change["totals"]["gross"]
    accept(stage, change)
    second = Agreement.objects.get(job=job, number=2)
    assert [step.code for step in JobOperation.objects.filter(cancellation=second)] == ["TURBO"]
    shelved = KitCopy.objects.get(kit=stage.turbo)
    assert shelved.purpose == "shelf" and shelved.job is None
    gone = PullLine.objects.filter(pull_list__job=job, cancellation=second)
    assert gone.filter(copy=shelved).count() == PullLine.objects.filter(copy=shelved).count()
    assert gone.filter(kind="need").exists() and not gone.filter(kit="QF-T").exists()
    answer = stage.client.get(f"jobs/{job.pk}").json()
    assert "TURBO" not in {step["code"] for step in answer["operations"]}


def test_what_was_taken_off_cannot_be_taken_off_again(stage: Stage, job: Job) -> None:
    first, second = begin(stage, job), begin(stage, job)
    assert [change["change"]["number"] for change in (first, second)] == [1, 2]
    second = off(stage, second, "Turbocharger kit")
    late = Phone(send(stage, second)["link"]["url"])
    accept(stage, off(stage, first, "Turbocharger kit"))
    assert late.answer().status_code == 409 and Decision.objects.count() == 2
    third = begin(stage, job)
    assert "Turbocharger kit" not in {item["title"] for item in third["change"]["items"]}
    gone = next(item for item in first["change"]["items"] if item["title"] == "Turbocharger kit")
    body = {"items": [{"source": gone["source"], "item": gone["item"]}]}
    refusal = stage.client.put(f"quotes/{third['id']}/taken-off", body, seen=f'"{third["version"]}"')
    assert refusal.status_code == 400 and refusal.json()["errors"][0]["pointer"] == "/items"


@pytest.mark.parametrize(
    ("discount", "share"), [({"percent": "10"}, Decimal("0.9")), ({"amount": "100.00"}, Decimal(1))]
)
def test_only_a_discount_in_percent_goes_with_what_is_taken_off(
    stage: Stage, discount: dict[str, str], share: Decimal
) -> None:
    quote = stage.quote().json()
    body = discount | {"because": "Both kits in one visit"}
    quote = stage.client.put(f"quotes/{quote['id']}/discount", body, seen=f'"{quote["version"]}"').json()
    assert Phone(send(stage, quote)["link"]["url"]).answer().status_code == 303
    values = {item["title"]: item["value"] for item in begin(stage, Job.objects.get())["change"]["items"]}
    kit = next(kit for kit in quote["kits"] if kit["title"] == "Towing kit")
    assert abs(Decimal(values["Towing kit"]) - Decimal(kit["price"]) * share) <= Decimal("0.01")


@pytest.mark.parametrize("state", ["handed_over", "called_off"])
def test_a_job_that_has_ended_is_not_changed(stage: Stage, job: Job, state: str) -> None:
    change = text_line(stage, begin(stage, job))
    phone = Phone(send(stage, change)["link"]["url"])
    Job.objects.update(state=state)
    assert stage.client.post(f"jobs/{job.pk}/changes", {}).status_code == 409
    assert phone.answer().status_code == 409 and Agreement.objects.count() == 1


def test_a_closed_list_is_open_again_for_new_parts(stage: Stage, towing_job: Job) -> None:
    PullList.objects.update(state="closed")
    change = begin(stage, towing_job)
    accept(stage, stage.client.post(f"quotes/{change['id']}/lines", {"kind": "kit", "kit": str(stage.turbo.pk)}).json())
    assert PullList.objects.get().state == "open"


def test_the_changes_of_a_job_are_listed(stage: Stage, job: Job) -> None:
    accept(stage, text_line(stage, begin(stage, job)))
    begin(stage, job)
    listed = stage.client.get(f"jobs/{job.pk}/changes").json()
    assert listed["agreed"] == "3297.38"
    assert [(row["state"], row["gross"], row["way"]) for row in listed["changes"]] == [
        ("accepted", "90.00", "link"),
        ("draft", "0.00", None),
    ]
    assert listed["changes"][0]["titles"] == ["Bracket made"]


def test_a_change_on_a_job_without_a_ceiling_names_no_sum_of_nothing(stage: Stage, job: Job) -> None:
    html = Phone(send(stage, text_line(stage, begin(stage, job)))["link"]["url"]).html
    assert "we may do extra work for" not in html and "0.00 EUR of" not in html
