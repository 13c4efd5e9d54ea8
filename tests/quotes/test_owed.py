"""Owed to us: outside work that is out, and what customers still have to pay on jobs that ended."""

import json
from datetime import date
from typing import Any

import pytest

from shop.models import Job
from tests.quotes import dated
from tests.quotes.changing import job_of
from tests.quotes.dated import Clock, local
from tests.quotes.stage import Stage
from tests.quotes.test_outside import NAME, accepted
from tests.quotes.test_outside_log import record
from tests.quotes.test_query_counts import queries

clock, stage = dated.clock, dated.stage


def owed(stage: Stage, role: str = "advisor") -> dict[str, Any]:
    answer = stage.cast.signed_in(role).get("owed")
    assert answer.status_code == 200, answer.content
    return answer.json()


def send_out(stage: Stage, **fields: Any) -> Job:
    """A job whose calibration was sent on the day of its acceptance."""
    _, readiness = accepted(stage, starts_after="", **fields)
    path = f"jobs/{readiness['job']['id']}/outside"
    work = stage.client.get(path).json()["items"][0]["work"]
    body = {"work": work, "kind": "sent", "happened_on": "2026-12-01"}
    assert stage.client.post(path, body).status_code == 201
    return Job.objects.get(pk=readiness["job"]["id"])


def close(stage: Stage, job: Job) -> str:
    """The sum of the account with which the job was closed."""
    due: str = stage.client.get(f"jobs/{job.pk}/account").json()["due"]
    assert stage.client.post(f"jobs/{job.pk}/closing-account", {"due": due}).status_code == 201
    return due


def test_nothing_is_owed_at_first_and_nothing_that_was_not_sent(stage: Stage) -> None:
    accepted(stage, starts_after="")
    assert owed(stage) == {"outside": [], "money": [], "exponent": 2}


def test_work_that_is_out_leads_to_its_job_with_late_work_first(stage: Stage, clock: Clock) -> None:
    slow, quick = send_out(stage, days=9), send_out(stage, days=1)
    clock(local(3))
    rows = owed(stage)["outside"]
    assert [(row["number"], row["state"], row["words"]) for row in rows] == [
        (str(quick), "late", "Sent Tue 1 Dec; it was due back Wed 2 Dec"),
        (str(slow), "sent", "Sent Tue 1 Dec, due back Mon 14 Dec"),
    ]
    assert (rows[0]["title"], rows[0]["firm"], rows[0]["customer"]) == (NAME, "Lathe & Lambda", "Maren Oldacre")
    assert all(stage.client.get(f"quotes/{row['quote']}").status_code == 200 for row in rows)


def test_what_came_back_is_owed_no_more_until_its_return_is_undone_or_it_goes_out_again(
    stage: Stage, clock: Clock
) -> None:
    send_out(stage)
    for minute, (kind, out) in enumerate((("back", 0), ("undone", 1), ("back", 0), ("sent", 1)), start=1):
        clock(local(1, 9, minute))
        assert record(stage, kind, "01").status_code == 201
        assert len(owed(stage)["outside"]) == out, kind


def test_work_of_a_year_ago_is_not_looked_for_for_ever(stage: Stage, clock: Clock) -> None:
    send_out(stage)
    clock(local(1).replace(year=2028))
    assert owed(stage)["outside"] == []


@pytest.mark.both
def test_a_closed_job_is_owed_what_is_not_paid_yet(stage: Stage) -> None:
    job = job_of(stage, stage.turbo)
    assert owed(stage)["money"] == []  # it has not ended
    due = close(stage, job)
    (row,) = owed(stage)["money"]
    assert (row["number"], row["amount"], row["phone"]) == (str(job), due, "01632 960 417")
    assert row["words"] == "Closed with its account, not paid in full" and row["quote"]
    paid = {"received_on": "2026-12-01", "means": "card"}
    pay = f"jobs/{job.pk}/payments"
    assert stage.client.post(pay, paid | {"amount": "100.00"}).status_code == 201
    (row,) = owed(stage)["money"]
    assert float(row["amount"]) == pytest.approx(float(due) - 100)
    assert stage.client.post(pay, paid | {"amount": row["amount"]}).status_code == 201
    assert owed(stage)["money"] == []


def test_a_job_that_ended_and_was_not_closed_is_named_without_a_sum(stage: Stage) -> None:
    job = job_of(stage, stage.turbo)
    stage.client.post(f"jobs/{job.pk}/call-off", {"because": "Sold the vehicle"})
    other = job_of(stage, stage.turbo)
    Job.objects.filter(pk=other.pk).update(
        state="handed_over", in_bay_on=date(2026, 12, 1), handed_over_on=date(2026, 12, 1)
    )
    rows = owed(stage)["money"]
    assert [(row["number"], row["amount"], row["words"]) for row in rows] == [
        (str(job), None, "Called off Tue 1 Dec 2026, not closed with its account yet"),
        (str(other), None, "Handed over Tue 1 Dec 2026, not closed with its account yet"),
    ]
    close(stage, other)
    assert [row["amount"] is None for row in owed(stage)["money"]] == [False, True]


@pytest.mark.parametrize("role", ["parts", "technician"])
def test_parts_and_technician_read_what_is_out_and_no_money(stage: Stage, role: str) -> None:
    due = close(stage, send_out(stage))
    answer = owed(stage, role)
    assert len(answer["outside"]) == 1 and answer["money"] is None and answer["outside"][0]["quote"] is None
    text = json.dumps(answer)
    assert due not in text and "01632 960 417" not in text


def test_another_shops_work_and_money_are_not_in_it(stage: Stage) -> None:
    close(stage, send_out(stage))
    stranger = stage.cast.signed_in("advisor")
    stranger.force_login(stage.cast.stranger.user)
    stranger.shop = stage.cast.elsewhere.slug
    answer = stranger.get(f"/api/v1/shops/{stage.cast.elsewhere.slug}/owed")
    assert answer.status_code == 200 and (answer.json()["outside"], answer.json()["money"]) == ([], [])


def test_more_rows_ask_the_database_no_more(stage: Stage) -> None:
    close(stage, send_out(stage))
    few = queries(lambda: stage.client.get("owed"))
    for _ in range(3):
        close(stage, send_out(stage))
    assert len(owed(stage)["outside"]) == 4
    assert queries(lambda: stage.client.get("owed")) == few
