"""The account of a job that was called off: what was not carried out comes off, what was sent out stays owed."""

from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone
from django.utils.html import strip_tags

from quotes.documents.closing_account import closing_html
from quotes.models import ClosingAccount
from shop.models import History, Job, RuleSet
from tests.factories import JobOperationFactory
from tests.quotes import dated
from tests.quotes.dated import local
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_calling_off import call_off
from tests.quotes.test_outside import NAME, draft

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage
TODAY = local(1).date().isoformat()


def agreed(stage: Stage, **fields: Any) -> Decimal:
    """The total of an accepted quote with a calibration by another firm."""
    sent = dated.send(stage, draft(stage, **fields))
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    return Decimal(sent["quote"]["totals"]["gross"])


def account(stage: Stage) -> dict[str, Any]:
    return dict(stage.client.get(f"jobs/{Job.objects.get().pk}/account").json())


def send_out(stage: Stage, *kinds: str) -> None:
    path = f"jobs/{Job.objects.get().pk}/outside"
    for kind in kinds:
        (item,) = stage.client.get(path).json()["items"]
        entry = {"entry": item["undo"]} if kind == "undone" else {}
        answer = stage.client.post(path, {"work": item["work"], "kind": kind, "happened_on": TODAY, **entry})
        assert answer.status_code == 201, answer.content


def test_nothing_is_owed_of_a_job_on_which_nothing_was_sent_out(stage: Stage) -> None:
    gross = agreed(stage)
    call_off(stage)
    answer = account(stage)
    first, off = answer["rows"]
    assert (first["amount"], off["amount"], answer["total"]) == (str(gross), str(-gross), "0.00")
    assert (off["kind"], off["title"]) == ("called_off", "Not carried out")
    assert off["why"] == [
        "the job was called off on Tue 1 Dec 2026",
        "nothing was done and nothing was sent out",
    ]
    assert (answer["settled"], answer["tax_words"]) == ("paid", "tax inside it: 0.00")


@pytest.mark.parametrize("kinds", [["sent"], ["sent", "asked"], ["sent", "back"]], ids="-".join)
def test_work_that_was_sent_out_stays_owed(stage: Stage, kinds: list[str]) -> None:
    gross = agreed(stage)
    send_out(stage, *kinds)
    call_off(stage)
    answer = account(stage)
    assert answer["rows"][1]["amount"] == str(Decimal("691.60") - gross)
    assert answer["rows"][1]["why"][1:] == [f"{NAME} was sent out and is still owed: 691.60"]
    assert (answer["total"], answer["due"], answer["tax_words"]) == ("691.60", "691.60", "tax inside it: 115.27")


def done(stage: Stage, *codes: str) -> None:
    steps = Job.objects.get().operations.filter(code__in=codes)
    assert steps.update(state="done", done_at=timezone.now(), done_by=stage.cast.acting("technician").member)


def test_steps_that_were_done_stay_owed_at_their_agreed_price(stage: Stage) -> None:
    gross = agreed(stage)
    send_out(stage, "sent")
    done(stage, "SETUP")
    call_off(stage)
    answer = account(stage)
    setup = "Set-up, protect, road test was done and is still owed: 1.5 h, 247.50"
    assert answer["rows"][1]["why"][1:] == [setup, f"{NAME} was sent out and is still owed: 691.60"]
    assert answer["rows"][1]["amount"] == str(Decimal("939.10") - gross)
    assert answer["total"] == "939.10"


def correct(stage: Stage, hours: str, code: str = "SETUP", **more: Any) -> Any:
    step = Job.objects.get().operations.get(code=code)
    body = {"hours": hours, "reason": "Begun, then called off", **more}
    return stage.client.post(f"jobs/{step.job_id}/steps/{step.pk}/hours", body)


def test_a_step_that_was_begun_owes_the_hours_really_worked(stage: Stage) -> None:
    agreed(stage)
    call_off(stage)
    answer = correct(stage, "0.5").json()
    setup = next(work for work in answer["labour"] if work["title"].startswith("Set-up"))
    assert (setup["agreed"], setup["hours"], setup["amount"]) == ("1.5", "0.5", "82.50")
    who = stage.cast.acting("advisor").member.user.name
    assert setup["why"][0] == "not done"
    assert setup["why"][1].startswith(f"hours corrected by {who}") and "Begun, then called off" in setup["why"][1]
    row = account(stage)["rows"][1]
    begun = "Set-up, protect, road test was begun; 0.5 of 1.5 h were worked and are still owed: 82.50"
    assert row["why"][1:] == [f"{begun} (Begun, then called off)"] and account(stage)["total"] == "82.50"
    assert History.objects.get(verb="hours corrected").changes["reason"] == ["", "Begun, then called off"]


def test_a_called_off_job_has_no_date_and_no_verdict_and_orders_nothing(stage: Stage) -> None:
    agreed(stage)
    job = Job.objects.get().pk
    quote = stage.client.get("quotes").json()["items"][0]["id"]
    before = stage.client.get(f"jobs/{job}/readiness").json()
    assert before["verdict"] and before["missing"] and before["to_order"]
    call_off(stage)
    after = stage.client.get(f"jobs/{job}/readiness").json()
    words = "The job was called off."
    assert (after["sentence"], after["no_promise"], after["promise"], after["verdict"]) == (words, words, None, None)
    assert not after["missing"] and not after["to_order"] and not after["arrivals"]
    answer = stage.client.get(f"quotes/{quote}").json()
    assert (answer["promise"], answer["no_promise"]) == (None, words)
    left = stage.client.get(f"jobs/{job}/call-off").json()
    assert left["received"] is None
    owed = stage.client.get("owed").json()
    assert owed["cores"] == [] and [row["amount"] for row in owed["money"]] == [None]


def test_the_newest_correction_counts_also_on_a_done_step(stage: Stage) -> None:
    agreed(stage)
    done(stage, "SETUP")
    call_off(stage)
    assert account(stage)["total"] == "247.50"
    correct(stage, "1.0")
    correct(stage, "0.0")
    assert account(stage)["total"] == "0.00" and account(stage)["rows"][1]["why"][1:] == [
        "nothing was done and nothing was sent out"
    ]
    assert correct(stage, "1.5").status_code == 201 and account(stage)["total"] == "247.50"


def test_more_hours_than_were_agreed_are_refused(stage: Stage) -> None:
    agreed(stage)
    call_off(stage)
    refusal = correct(stage, "1.6")
    assert refusal.status_code == 400 and refusal.json()["errors"][0]["pointer"] == "/hours"
    assert correct(stage, "0.5", reason="").status_code == 400
    assert account(stage)["total"] == "0.00"


def test_the_hours_of_an_open_or_closed_job_are_not_corrected(stage: Stage) -> None:
    agreed(stage)
    assert correct(stage, "0.5").json()["type"].endswith("job-not-called-off")
    call_off(stage)
    job = Job.objects.get().pk
    assert stage.client.post(f"jobs/{job}/closing-account", {"due": "0.00"}).status_code == 201
    assert correct(stage, "0.5").json()["type"].endswith("job-closed")
    assert stage.client.get(f"jobs/{job}/call-off").json()["settled"] is True


def test_a_step_without_a_price_of_its_own_is_refused(stage: Stage) -> None:
    agreed(stage)
    call_off(stage)
    step = JobOperationFactory(shop=stage.cast.shop, job=Job.objects.get(), code="OTHER", position=99)
    assert correct(stage, "0.5", "OTHER").json()["type"].endswith("step-without-price") and step.pk


def test_a_step_that_is_not_done_is_not_owed(stage: Stage) -> None:
    agreed(stage)
    Job.objects.get().operations.filter(code="SETUP").update(state="running", started_at=timezone.now())
    call_off(stage)
    assert account(stage)["total"] == "0.00"


def test_a_tap_that_was_undone_owes_nothing(stage: Stage) -> None:
    agreed(stage)
    send_out(stage, "sent", "undone")
    call_off(stage)
    assert account(stage)["total"] == "0.00"


def test_the_tax_of_what_is_owed_comes_on_top_where_prices_are_before_tax(stage: Stage) -> None:
    RuleSet.objects.filter(used_at=None).update(rules=RULES | {"prices_include_tax": False, "supplies": None})
    agreed(stage)
    send_out(stage, "sent")
    call_off(stage)
    answer = account(stage)
    assert (answer["total"], answer["tax_words"]) == ("691.60", "tax inside it: 115.27")  # 576.33 and 20 %


def test_what_was_paid_is_paid_back_but_for_what_is_owed(stage: Stage) -> None:
    agreed(stage)
    job = Job.objects.get().pk
    body = {"amount": "1000.00", "received_on": TODAY, "means": "card"}
    assert stage.client.post(f"jobs/{job}/payments", body).status_code == 201
    send_out(stage, "sent")
    call_off(stage)
    answer = account(stage)
    assert (answer["settled"], answer["due"]) == ("over", "-308.40")
    closed = stage.client.post(f"jobs/{job}/closing-account", {"due": "-308.40"}).json()
    assert [row["kind"] for row in closed["rows"]] == ["agreed", "called_off"] and closed["closed"]["due"] == "-308.40"
    closing_account = ClosingAccount.objects.get()
    assert closing_account.total == Decimal("691.60")
    paper = " ".join(strip_tags(closing_html(closing_account.snapshot)).split())
    assert "To pay back308.40" in paper  # the words say who pays: no sign


def test_an_open_job_owes_all_of_it(stage: Stage) -> None:
    gross = agreed(stage)
    send_out(stage, "sent")
    assert account(stage)["total"] == str(gross)
