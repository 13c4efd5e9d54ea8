"""Owed to us: outside work that is out, and what customers still have to pay on jobs that ended."""

import io
import json
from datetime import date
from decimal import Decimal
from typing import Any

import openpyxl
import pytest

from kitting.models import Supplier
from shop.models import Job
from tests.quotes import dated
from tests.quotes.changing import accept, begin, job_of, off, send
from tests.quotes.dated import Clock, local
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_outside import NAME, accepted
from tests.quotes.test_outside_log import read_as, record
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

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
    assert owed(stage) == {"outside": [], "cores": [], "money": [], "exponent": 2}


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


def test_a_row_has_whom_to_ask_as_recorded_today_and_takes_that_we_asked_again(stage: Stage, clock: Clock) -> None:
    send_out(stage)
    assert owed(stage)["outside"][0]["contact"] == ""
    Supplier.objects.filter(name="Lathe & Lambda").update(name="Lathe, Lambda & Sons", contact="Tess, 01632 960 433")
    assert {role: owed(stage, role)["outside"][0]["contact"] for role in ("manager", "parts", "technician")} == {
        "manager": "Tess, 01632 960 433",
        "parts": "Tess, 01632 960 433",
        "technician": None,
    }
    clock(local(1, 9, 1))
    (row,) = owed(stage)["outside"]
    body = {"work": row["work"], "happened_on": "2026-12-01"}
    sentences, entry = [], None
    for minute, kind in enumerate(("asked", "undone"), start=2):
        clock(local(1, 9, minute))
        answer = stage.client.post(f"jobs/{row['job']}/outside", body | {"kind": kind, "entry": entry})
        assert answer.status_code == 201
        entry = answer.json()["items"][0]["undo"]
        sentences.append(owed(stage)["outside"][0]["words"])
    assert "Asked again Tue 1 Dec" in sentences[0] and sentences[1] == row["words"]


def test_what_came_back_is_owed_no_more_until_its_return_is_undone_or_it_goes_out_again(
    stage: Stage, clock: Clock
) -> None:
    send_out(stage)
    for minute, (kind, out) in enumerate((("back", 0), ("undone", 1), ("back", 0), ("sent", 1)), start=1):
        clock(local(1, 9, minute))
        entry = read_as(stage, "parts")["undo"] if kind == "undone" else None
        assert record(stage, kind, "01", entry=entry).status_code == 201
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


def test_an_old_part_that_comes_back_after_closing_can_settle_what_was_left(stage: Stage) -> None:
    job = with_core(stage)
    due = Decimal(close(stage, job))
    body = {"received_on": "2026-12-01", "means": "card", "amount": str(due - 250)}
    assert stage.client.post(f"jobs/{job.pk}/payments", body).status_code == 201
    assert [row["amount"] for row in owed(stage)["money"]] == ["250.00"]
    come_back(stage, job, "250.00")
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
    with_core(stage)
    send_out(stage)
    body = stage.client.get("lists", {"kind": "owed"}).content
    _, *lines = openpyxl.load_workbook(io.BytesIO(body))["owed"].iter_rows(values_only=True)
    assert [(line[0], line[2], line[-1] and Decimal(str(line[-1]))) for line in lines] == [
        ("with another firm", "Maren Oldacre", None),
        ("old part", "Maren Oldacre", 250),
        ("money", "Maren Oldacre", Decimal(owed(stage)["money"][0]["amount"])),
        ("money", "Maren Oldacre", None),
    ]


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


def with_core(stage: Stage, price: str = "250.00", *, title: str = "Core deposit, turbocharger") -> Job:
    """A job whose quote has a core deposit."""
    quote = stage.quote(stage.turbo).json()
    line = {"kind": "text", "title": title, "unit_price": price, "tax_class": "part", "core": True}
    draft = stage.client.post(f"quotes/{quote['id']}/lines", line)
    assert draft.status_code == 201, draft.content
    assert Phone(send(stage, draft.json())["link"]["url"]).answer().status_code == 303
    return Job.objects.get(pk=stage.client.get(f"quotes/{quote['id']}").json()["job"]["id"])


def come_back(stage: Stage, job: Job, amount: str) -> str:
    """Records that an old part came back; the id of the record."""
    body = {"title": "Turbocharger", "amount": amount, "returned_on": "2026-12-01"}
    answer = stage.client.post(f"jobs/{job.pk}/core-returns", body)
    assert answer.status_code == 201, answer.content
    return answer.json()["cores"][-1]["id"]


def test_a_core_deposit_is_owed_with_its_quote_its_days_and_its_amount(stage: Stage, clock: Clock) -> None:
    job = with_core(stage)
    (row,) = owed(stage)["cores"]
    assert (row["days"], row["words"]) == (0, "Agreed today; the old part has not come back")
    clock(local(13))
    (row,) = owed(stage)["cores"]
    assert (row["number"], row["title"], row["customer"]) == (str(job), "Core deposit, turbocharger", "Maren Oldacre")
    assert (row["days"], row["amount"]) == (12, "250.00")
    assert row["words"] == "Agreed Tue 1 Dec 2026, open 12 days; the old part has not come back"
    assert stage.client.get(f"quotes/{row['quote']}").status_code == 200


def test_it_is_settled_when_the_old_part_comes_back_and_open_again_after_a_mistake(stage: Stage) -> None:
    job = with_core(stage)
    core = come_back(stage, job, "100.00")
    assert owed(stage)["cores"][0]["amount"] == "150.00"
    come_back(stage, job, "150.00")
    assert owed(stage)["cores"] == []
    reverse = f"jobs/{job.pk}/core-returns/{core}/reversal"
    assert stage.client.post(reverse, {"reason": "another job"}).status_code == 201
    assert owed(stage)["cores"][0]["amount"] == "100.00"


def test_where_prices_are_before_tax_the_deposit_is_owed_with_its_tax(stage: Stage) -> None:
    stage.enact(RULES | {"prices_include_tax": False})
    with_core(stage)
    assert owed(stage)["cores"][0]["amount"] == "300.00"


def test_the_longest_open_deposit_comes_first(stage: Stage, clock: Clock) -> None:
    first = with_core(stage)
    clock(local(2))
    second = with_core(stage)
    assert [row["number"] for row in owed(stage)["cores"]] == [str(first), str(second)]


def test_no_deposit_is_owed_on_a_closed_or_called_off_job_or_a_quote_without_a_yes(stage: Stage) -> None:
    close(stage, with_core(stage))
    called_off = with_core(stage)
    assert stage.client.post(f"jobs/{called_off.pk}/call-off", {"because": "Sold it"}).status_code == 200
    quote = stage.quote(stage.turbo).json()
    line = {"kind": "text", "title": "Core", "unit_price": "9.00", "tax_class": "part", "core": True}
    stage.client.post(f"quotes/{quote['id']}/lines", line)
    assert owed(stage)["cores"] == []


def test_a_change_that_takes_the_deposit_off_settles_it(stage: Stage) -> None:
    job = with_core(stage)
    change = begin(stage, job)
    accept(stage, off(stage, change, "Core deposit, turbocharger"))
    assert owed(stage)["cores"] == []


@pytest.mark.parametrize("role", ["parts", "technician"])
def test_parts_and_technician_read_what_must_come_back_without_its_amount(stage: Stage, role: str) -> None:
    with_core(stage)
    (row,) = owed(stage, role)["cores"]
    assert (row["title"], row["amount"], row["quote"]) == ("Core deposit, turbocharger", None, None)
    assert row["phone"] is None and owed(stage)["cores"][0]["phone"] == "01632 960 417"


def test_no_discount_touches_a_core_deposit(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    line = {"kind": "text", "title": "Core", "unit_price": "1000.00", "tax_class": "part", "core": True}
    draft = stage.client.post(f"quotes/{quote['id']}/lines", line).json()
    path = f"quotes/{quote['id']}/discount"
    less = stage.client.put(path, {"percent": "10", "because": "x"}, seen=f'"{draft["version"]}"').json()
    alone = stage.quote(stage.turbo).json()
    path = f"quotes/{alone['id']}/discount"
    other = stage.client.put(path, {"percent": "10", "because": "x"}, seen=f'"{alone["version"]}"').json()
    assert less["discount"]["price"] == other["discount"]["price"]


def test_only_a_line_written_by_hand_is_a_core_deposit_and_the_customer_reads_it(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    path = f"quotes/{quote['id']}/lines/{quote['kits'][0]['line']}"
    answer = stage.client.patch(path, {"core": True}, seen=f'"{quote["version"]}"')
    assert answer.status_code in (400, 409)
    line = {"kind": "text", "title": "Core", "unit_price": "90.00", "tax_class": "part", "core": True}
    draft = stage.client.post(f"quotes/{quote['id']}/lines", line).json()
    page = Phone(send(stage, draft)["link"]["url"]).html
    assert "a deposit: you get it back when we have the old part" in page


def test_more_deposits_ask_the_database_no_more(stage: Stage) -> None:
    with_core(stage)
    few = queries(lambda: stage.client.get("owed"))
    for _ in range(3):
        with_core(stage)
    assert len(owed(stage)["cores"]) == 4
    assert queries(lambda: stage.client.get("owed")) == few
