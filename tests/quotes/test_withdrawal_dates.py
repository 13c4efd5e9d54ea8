"""The promise date of an acceptance that leaves the withdrawal period alone, on Tue 1 Dec 2026."""

import html
from datetime import timedelta

from quotes.models import Decision
from shop.models import Job
from tests.quotes import dated
from tests.quotes.dated import Clock, local
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR, with_rules

clock, stage = dated.clock, dated.stage  # the workshop of the promise dates


def test_the_date_counts_from_the_end_of_the_period(stage: Stage) -> None:
    phone = with_rules(stage, FAIR)
    early, later = phone.field("ready"), phone.field("ready_later")
    assert early < "2026-12-16" < later
    assert "This date holds only if you ask us to start within the withdrawal period." in phone.html
    assert "no work before Wed 16 Dec 2026; the vehicle can then be ready on" in html.unescape(phone.html)
    assert phone.answer(consent=("road",), ready=early, ready_later=later).status_code == 303
    told, job = Decision.objects.get().record["promise"]["told"]["ready"], Job.objects.get()
    assert (f"{told['day']} {told['half']}", job.not_before.isoformat()) == (later, "2026-12-16")
    reach = stage.client.get(f"jobs/{job.pk}/readiness").json()
    assert reach["promise"]["ready"]["day"] == told["day"] and reach["verdict"] == "hold"


def test_who_asks_for_an_early_start_keeps_the_early_date(stage: Stage) -> None:
    phone = with_rules(stage, FAIR)
    early, later = phone.field("ready"), phone.field("ready_later")
    assert phone.answer(consent=("road", "early"), ready=early, ready_later=later).status_code == 303
    told = Decision.objects.get().record["promise"]["told"]["ready"]
    assert f"{told['day']} {told['half']}" == early


def test_on_the_first_day_after_the_period_work_may_begin(stage: Stage, clock: Clock) -> None:
    with_rules(stage, FAIR).answer(consent=("road",))
    job = Job.objects.get()
    for day, held in ((15, True), (16, False)):
        clock(local(day))
        reach = stage.client.get(f"jobs/{job.pk}/readiness").json()
        assert (reach["not_before"] is not None) == held, day
        assert ("withdrawal period" in reach["sentence"]) == held


def test_without_a_consent_to_begin_early_the_page_has_the_later_date_alone(stage: Stage) -> None:
    words = {**FAIR["words"], "consents": []}
    phone = with_rules(stage, {**FAIR, "words": words})
    shown = {name: phone.field(name) for name in ("ready", "ready_later")}
    assert shown["ready"] == shown["ready_later"] > "2026-12-16"
    assert "We order nothing and start no work before Wed 16 Dec 2026" in phone.html
    assert phone.answer(consent=(), **shown).status_code == 303
    assert Job.objects.get().not_before - local(1).date() == timedelta(days=15)
