"""A closing account closes the job: it is frozen, printed, and final but for payments."""

import csv
import html
import io
import json
from decimal import Decimal
from typing import Any

import openpyxl
import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone
from pypdf import PdfReader

from quotes.documents.closing_account import closing_html
from quotes.models import ClosingAccount
from quotes.queries.pricing import shop_day
from shop.calc.snapshot import digest
from shop.models import CoreReturn, Job, Payment
from shop.tables.csv_text import csv_text, harmless
from tests.factories import JobFactory
from tests.quotes.changing import accept, begin, text_line
from tests.quotes.stage import Stage
from tests.quotes.test_account import Account

pytestmark = pytest.mark.once


@pytest.fixture
def account(stage: Stage) -> Account:
    return Account(stage)


def today(account: Account) -> str:
    return shop_day(account.stage.shop, timezone.now()).isoformat()


def core(account: Account, amount: str = "120.00", **facts: Any) -> Any:
    body = {"title": "Turbocharger", "amount": amount, "returned_on": today(account)} | facts
    return account.stage.client.post(f"{account.path}/core-returns", body)


def close(account: Account, due: str | None = None, role: str = "advisor") -> Any:
    seen = account.read()["due"] if due is None else due
    return account.stage.cast.signed_in(role).post(f"{account.path}/closing-account", {"due": seen})


def code(answer: Any) -> str:
    assert answer.status_code == 409, answer.content
    return str(answer.json()["type"]).rpartition("/")[2]


def test_a_returned_core_takes_its_deposit_from_the_account(account: Account) -> None:
    answer = core(account).json()
    row = answer["rows"][-1]
    assert (row["kind"], row["title"], row["amount"]) == ("core", "Core returned: Turbocharger", "-120.00")
    assert answer["total"] == str(account.gross - 120)
    before = Decimal(account.quote.revisions.get().tax)
    assert answer["tax_words"] == f"tax inside it: {before - 20:,.2f}"


def test_a_core_recorded_by_mistake_is_reversed_once(account: Account) -> None:
    id = core(account).json()["cores"][0]["id"]
    path = f"{account.path}/core-returns/{id}/reversal"
    answer = account.stage.client.post(path, {"reason": "Wrong job"}).json()
    assert answer["total"] == str(account.gross) and [row["kind"] for row in answer["rows"]] == ["agreed"]
    assert [(row["amount"], row["reversed"]) for row in answer["cores"]] == [("120.00", True), ("-120.00", False)]
    assert code(account.stage.client.post(path, {"reason": "Again"})) == "payment-reversed"


@pytest.mark.parametrize("facts", [{"amount": "0.00"}, {"amount": "0.001"}, {"returned_on": "2090-01-01"}])
def test_what_cannot_be_a_returned_core_is_refused(account: Account, facts: dict[str, str]) -> None:
    assert core(account, **facts).status_code == 400
    assert not CoreReturn.objects.exists()


def test_a_core_of_another_job_is_not_found(account: Account) -> None:
    id = core(account).json()["cores"][0]["id"]
    other = JobFactory(shop=account.stage.shop, number=900_002)
    path = f"jobs/{other.pk}/core-returns/{id}/reversal"
    assert account.stage.client.post(path, {"reason": "Wrong job"}).status_code == 404


def test_closing_freezes_the_account_and_only_payments_come_after_it(account: Account) -> None:
    core(account)
    account.pay("400.00")
    closed = close(account, role="manager").json()
    due = account.gross - 120 - 400
    assert closed["closed"]["due"] == closed["due"] == str(due)
    assert closed["caution"] == ""
    assert code(close(account)) == "job-closed"
    assert close(account).json()["detail"].endswith("Payments can still be recorded.")
    after = account.pay(str(due)).json()
    assert (after["due"], after["settled"], after["closed"]) == ("0.00", "paid", closed["closed"])
    assert after["rows"] == closed["rows"]


def test_an_old_part_that_comes_back_after_closing_is_a_row_after_the_account(account: Account) -> None:
    core(account)
    closed = close(account).json()
    account.pay(closed["due"])
    late = core(account, title="Starter", amount="60.00").json()
    assert late["rows"][:-1] == closed["rows"] and late["closed"] == closed["closed"]
    row = late["rows"][-1]
    assert (row["kind"], row["title"], row["amount"]) == ("core", "Core returned after closing: Starter", "-60.00")
    assert (late["due"], late["settled"], late["total"]) == ("-60.00", "over", str(account.gross - 180))
    [owed] = account.stage.client.get("owed").json()["money"]
    assert (owed["amount"], owed["words"][:30]) == ("-60.00", "Closed with its account; to be")
    [*_, last] = month(account, today(account)[:7])
    assert (last["Row"], last["Amount"], last["Reference"]) == ("core returned after closing", "-60.00", "Starter")
    earlier, starter = (row["id"] for row in late["cores"])
    path = f"{account.path}/core-returns"
    assert code(account.stage.client.post(f"{path}/{earlier}/reversal", {"reason": "Wrong"})) == "job-closed"
    back = account.stage.client.post(f"{path}/{starter}/reversal", {"reason": "Wrong"}).json()
    assert back["rows"] == closed["rows"] and back["due"] == "0.00"
    assert account.stage.client.get("owed").json()["money"] == []
    assert len(month(account, today(account)[:7])) == 2


def test_a_sum_that_was_not_seen_does_not_close_the_job(account: Account) -> None:
    seen = account.read()["due"]
    account.pay("1.00")
    assert code(close(account, seen)) == "account-moved"
    assert not ClosingAccount.objects.exists()


def test_a_job_without_an_accepted_quote_cannot_be_closed(account: Account) -> None:
    job = JobFactory(shop=account.stage.shop, number=900_002)
    answer = account.stage.client.post(f"jobs/{job.pk}/closing-account", {"due": "0.00"})
    assert code(answer) == "nothing-to-close"
    assert account.stage.client.get(f"jobs/{job.pk}/closing-account/paper").status_code == 409


def test_a_change_is_a_row_of_its_own_once_it_was_accepted(account: Account) -> None:
    job = Job.objects.get(pk=account.quote.job_id)
    change = text_line(account.stage, begin(account.stage, job))
    stop = f"Before the job can be closed, {change['number']} has to be answered, withdrawn or discarded."
    read = account.read()
    assert (read["stops"], read["caution"]) == ([stop], "The vehicle has not been taken into the bay yet.")
    assert code(close(account)) == "changes-open"
    accept(account.stage, change)
    rows = account.read()["rows"]
    assert [(row["kind"], row["amount"]) for row in rows[1:]] == [("change", "90.00")]
    assert rows[1]["consent"].endswith(", on the link")
    assert close(account).status_code == 201
    assert code(account.stage.client.post(f"{account.path}/changes", {})) == "job-closed"


@pytest.mark.paper
def test_the_paper_is_that_of_the_frozen_text(account: Account) -> None:
    account.pay("400.00", reference="slip 000417")
    close(account)
    closing = ClosingAccount.objects.get()
    assert closing.digest == digest(closing.snapshot)
    answer = account.stage.client.get(f"{account.path}/closing-account/paper")
    paper = PdfReader(io.BytesIO(answer.content))
    (attached,) = paper.attachments["closing-account.json"]
    assert attached.decode() == closing.snapshot
    words = " ".join(paper.pages[0].extract_text().split())
    for part in ("This is not a tax invoice.", "slip 000417", f"{account.gross - 400:,}", "Maren Oldacre"):
        assert part in words
    account.pay("1.00")
    assert account.stage.client.get(f"{account.path}/closing-account/paper").content == answer.content


def test_the_paper_says_each_row_with_its_consent_and_no_cost(account: Account) -> None:
    core(account)
    close(account)
    text = ClosingAccount.objects.get().snapshot
    page = html.unescape(closing_html(text))
    assert page.count("Core returned: Turbocharger") == 1 and "on the link" in page
    assert "cost" not in json.dumps(json.loads(text)["rows"])


@pytest.mark.parametrize("role", ["parts", "technician"])
def test_who_sees_no_price_closes_nothing(account: Account, role: str) -> None:
    assert close(account, role=role).status_code == 403
    assert account.stage.cast.signed_in(role).get("money", {"month": "2026-11"}).status_code == 403


@pytest.mark.both
def test_the_database_keeps_closing_accounts_and_cores(account: Account) -> None:
    core(account)
    close(account)
    for model, name in ((ClosingAccount, "closing_account_never_changes"), (CoreReturn, "core_return_never_changes")):
        with pytest.raises(IntegrityError, match=name), transaction.atomic():
            model.objects.all().delete()


def month(account: Account, name: str) -> list[dict[str, str]]:
    answer = account.stage.client.get("money", {"month": name})
    assert answer.status_code == 200 and answer["Content-Type"] == "text/csv; charset=utf-8"
    return list(csv.DictReader(io.StringIO(answer.content.decode("utf-8-sig"))))


def test_a_month_has_its_payments_and_closing_accounts(account: Account) -> None:
    account.pay("400.00", reference="=HYPERLINK(1)")
    account.pay("7.00", received_on="2026-01-31")
    close(account)
    rows = month(account, today(account)[:7])
    assert [(row["Row"], row["Amount"], row["Reference"]) for row in rows] == [
        ("payment", "400.00", "'=HYPERLINK(1)"),
        ("closing account", "", ""),
    ]
    assert rows[1]["To pay"] == str(account.gross - 407) and rows[1]["Total with tax"] == str(account.gross)
    assert {row["Quote"] for row in rows} == {str(account.quote)}
    assert [row["Amount"] for row in month(account, "2026-01")] == ["7.00"]
    assert month(account, "2026-02") == []
    book = account.stage.client.get("money", {"month": today(account)[:7], "format": "xlsx"})
    heading, first, _ = openpyxl.load_workbook(io.BytesIO(book.content)).active.iter_rows(values_only=True)
    line = dict(zip(heading, first, strict=True))
    assert (line["Row"], line["Amount"], line["Reference"]) == ("payment", 400, "=HYPERLINK(1)")


@pytest.mark.parametrize("name", ["", "2026", "2026-13", "November"])
def test_a_month_is_a_year_and_a_number(account: Account, name: str) -> None:
    answer = account.stage.client.get("money", {"month": name})
    assert (answer.status_code, answer.json()["detail"]) == (400, "Correct this and try again.")


def test_another_shops_payments_are_in_no_file_of_ours(account: Account) -> None:
    account.pay("400.00")
    row = Payment.objects.get()
    other = JobFactory(shop=account.stage.cast.elsewhere)
    Payment.objects.create(
        shop=other.shop,
        job=other,
        amount=Decimal(9),
        received_on=row.received_on,
        means="cash",
        recorded_at=row.recorded_at,
        recorded_by=account.stage.cast.stranger,
    )
    assert [line["Amount"] for line in month(account, today(account)[:7])] == ["400.00"]


@pytest.mark.parametrize("cell", ["=1+1", "+1 x", "-x", "@a", "\tx", "\rx", "\nx", "--1", " =1", "＝1"])
def test_no_cell_is_read_as_a_formula(cell: str) -> None:
    assert harmless(cell) == f"'{cell}"
    assert next(csv.reader(io.StringIO(csv_text([[cell]]).removeprefix("\ufeff"), newline=""))) == [f"'{cell}"]


@pytest.mark.parametrize("cell", ["-400.00", "12", "Ines, advisor", 'a "b"', ""])
def test_figures_and_words_stay_as_they_are(cell: str) -> None:
    assert harmless(cell) == cell
    assert next(csv.reader(io.StringIO(csv_text([["x", cell]]).removeprefix("\ufeff"), newline=""))) == ["x", cell]
