"""The promise date of an acceptance that leaves the withdrawal period alone, on Tue 1 Dec 2026."""

import html
import json
from datetime import timedelta
from typing import Any

import pytest

from kitting.models import Offer, PullLine, PullList
from quotes.documents.quote_pdf import paper_html
from quotes.models import Decision, Revision
from quotes.presenters.customer import for_customer
from shop.models import Job
from tests.kitting import stage as floor
from tests.quotes import dated
from tests.quotes.changing import begin
from tests.quotes.changing import send as send_change
from tests.quotes.dated import Clock, local, send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR, with_rules

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage  # the workshop of the promise dates
NO_EARLY = {**FAIR, "words": {**FAIR["words"], "consents": []}}
LATER = "expected ready then: Mon 28 Dec, afternoon."


def draft_of(stage: Stage, rules: dict[str, Any]) -> dict[str, Any]:
    stage.enact(rules)
    return stage.quote().json()


def paper_of(revision: Revision) -> str:
    return html.unescape(paper_html(revision.snapshot))


def test_the_date_counts_from_the_end_of_the_period(stage: Stage) -> None:
    phone = with_rules(stage, FAIR)
    early, later = phone.field("ready"), phone.field("ready_later")
    assert early < "2026-12-16" < later
    assert "This date applies only if you ask us to start within the withdrawal period." in phone.html
    assert f"no work before Wed 16 Dec 2026; {LATER} In that case: Please bring the vehicle on " in html.unescape(
        phone.html
    )
    assert phone.answer(consent=("road",), ready=early, ready_later=later).status_code == 303
    words, job = Decision.objects.get().record["promise"]["told"]["ready"], Job.objects.get()
    assert (f"{words['day']} {words['half']}", job.not_before.isoformat()) == (later, "2026-12-16")
    reach = stage.client.get(f"jobs/{job.pk}/readiness").json()
    assert reach["promise"]["ready"]["day"] == words["day"] and reach["verdict"] == "hold"
    days = ("Mon 21 Dec", "Fri 25 Dec")  # five and nine days after it
    ordered = {f"expected {day} if ordered on Wed 16 Dec" for day in days}
    assert ordered <= {part["due_words"] for part in reach["missing"]}


def test_where_vehicle_and_parts_are_here_no_work_begins_before_the_end_of_the_period(stage: Stage) -> None:
    with_rules(stage, FAIR).answer(consent=("road",))
    Job.objects.update(here=True, here_from=None)
    pull_list = PullList.objects.get()
    counter, lines = floor.Phone(pull_list), PullLine.objects.filter(pull_list=pull_list)
    counts = [counter.event(line, total=int(line.quantity)) for line in lines]
    floor.send(stage.cast.signed_in("parts"), pull_list, *counts)
    reach = stage.client.get(f"jobs/{pull_list.job_id}/readiness").json()
    assert (reach["missing"], reach["here"]) == ([], True)
    assert reach["promise"]["ready"]["day"] >= "2026-12-16"


def test_who_asks_for_an_early_start_keeps_the_early_date(stage: Stage) -> None:
    phone = with_rules(stage, FAIR)
    early, later = phone.field("ready"), phone.field("ready_later")
    assert phone.answer(consent=("road", "early"), ready=early, ready_later=later).status_code == 303
    words = Decision.objects.get().record["promise"]["told"]["ready"]
    assert f"{words['day']} {words['half']}" == early


def test_what_a_change_adds_waits_for_a_period_of_its_own(stage: Stage, clock: Clock) -> None:
    stage.enact(FAIR)
    Phone(stage.sent(stage.towing)["link"]["url"]).answer(consent=("road", "early"))
    job, change = Job.objects.get(), begin(stage, Job.objects.get())
    before = stage.client.get(f"jobs/{job.pk}/releases").json()["proposed"]
    change = stage.client.post(f"quotes/{change['id']}/lines", {"kind": "kit", "kit": str(stage.turbo.pk)}).json()
    dates = change["change"]["date"]
    page = Phone(send_change(stage, change)["link"]["url"])
    assert dates in page.html and page.answer(consent=("road",)).status_code == 303
    orders = f"pull-lists/{PullList.objects.get().pk}/orders"
    proposed, reach = stage.client.get(orders).json(), stage.client.get(f"jobs/{job.pk}/readiness").json()
    words = "Nothing that a change added is ordered or begun before Wed 16 Dec 2026: withdrawal period."
    assert (proposed["not_before"], proposed["suppliers"]) == (words, reach["to_order"])
    assert stage.client.get(f"jobs/{job.pk}/releases").json()["proposed"] == before
    (row,) = stage.client.get(f"jobs/{job.pk}/extra-work").json()["changes"]
    assert row["words"] == "agreed; not before Wed 16 Dec 2026: withdrawal period"
    ready = stage.client.get(f"jobs/{job.pk}/told-dates").json()["expected"]["words"]
    assert dates.endswith(f". Without the consent to start within the withdrawal period: ready {ready}.")
    turbo = next(step for step in reach["steps"] if step["code"] == "TURBO")
    assert turbo["state"] == "waits" and "Waits: not before Wed 16 Dec: withdrawal period" in turbo["missing"]
    assert any("expected Mon 21 Dec if ordered on Wed 16 Dec" in words for words in turbo["missing"])
    clock(local(16))
    assert stage.client.get(orders).json()["not_before"] is None
    after = stage.client.get(f"jobs/{job.pk}/releases").json()["proposed"]
    assert stage.turbo.part.number in json.dumps(after) and stage.turbo.part.number not in json.dumps(before)


def test_on_the_first_day_after_the_period_work_may_begin(stage: Stage, clock: Clock) -> None:
    with_rules(stage, FAIR).answer(consent=("road",))
    job = Job.objects.get()
    for day, waits in ((15, True), (16, False)):
        clock(local(day))
        reach = stage.client.get(f"jobs/{job.pk}/readiness").json()
        assert (reach["not_before"] is not None) == waits, day
        assert ("withdrawal period" in reach["sentence"]) == waits


def test_without_a_consent_to_begin_early_the_page_has_the_later_date_alone(stage: Stage) -> None:
    phone = with_rules(stage, NO_EARLY)
    days = {name: phone.field(name) for name in ("ready", "ready_later")}
    assert days["ready"] == days["ready_later"] > "2026-12-16"
    assert "We order nothing and start no work before Wed 16 Dec 2026" in phone.html
    assert phone.answer(consent=(), **days).status_code == 303
    assert Job.objects.get().not_before - local(1).date() == timedelta(days=15)


@pytest.mark.parametrize(
    ("rules", "early", "words"),
    [
        (
            FAIR,
            True,
            f"within the withdrawal period. Otherwise nothing is ordered and no work starts before {{}}; {LATER}",
        ),
        (NO_EARLY, False, "no work starts before {}, when the withdrawal period is over. This date counts from then."),
    ],
)
def test_draft_page_and_paper_have_one_date_and_one_condition(
    stage: Stage, rules: dict[str, Any], early: bool, words: str
) -> None:
    draft = draft_of(stage, rules)
    withdrawal = draft["promise"]["withdrawal"]
    assert withdrawal["words"].endswith(words.format("Wed 16 Dec 2026"))
    assert (withdrawal["first_day"], withdrawal["early"]) == ("2026-12-16", early)
    sent = send(stage, draft)
    page, paper = html.unescape(Phone(sent["link"]["url"]).html), paper_of(Revision.objects.get())
    headline = draft["promise"]["headline"]
    assert f"<span>{headline}</span>" in page and f'<h2 class="ready">{headline}</h2>' in paper
    customers = withdrawal["words"].split(". ", 1)[1] if early else "when the withdrawal period is over."
    customers = customers.replace("nothing is ordered and no work starts", "we order nothing and start no work")
    assert customers in page and customers in paper
    assert sent["quote"]["promise"] | {"how": None} == draft["promise"] | {"how": None}


def test_a_draft_without_a_withdrawal_period_says_nothing_of_one(stage: Stage) -> None:
    draft = draft_of(stage, {name: value for name, value in NO_EARLY.items() if name != "withdrawal"})
    assert draft["promise"]["withdrawal"] is None


def test_the_early_date_stands_alone_where_no_later_one_can_be_given(stage: Stage) -> None:
    """A part that is ordered after the period may have no day of its own, but no kit may lack one."""
    Offer.objects.filter(shop=stage.cast.shop).update(lead_days=None)
    draft = draft_of(stage, FAIR)
    assert draft["promise"] is None and draft["no_promise"]
    sent = send(stage, draft)
    assert "withdrawal" not in paper_of(Revision.objects.get()).split("No date yet")[1].split("<h2>")[0]
    assert "This date" not in Phone(sent["link"]["url"]).html


def test_the_machine_readable_copy_has_the_condition_too(stage: Stage) -> None:
    send(stage, draft_of(stage, FAIR))
    content = json.loads(Revision.objects.get().snapshot)
    assert LATER in for_customer(content)["plan"]["waits"]
