"""Payments of a job are recorded and reversed, never erased; the account says what is still to pay."""

from datetime import date, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from quotes.models import Quote
from quotes.queries.pricing import shop_day
from shop.models import History, Payment
from tests.factories import JobFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_deposit import ask

pytestmark = pytest.mark.once


class Account:
    """The account of an accepted quote, and the counter's requests about it."""

    def __init__(self, stage: Stage) -> None:
        self.stage = stage
        sent = stage.accepted()
        self.link = sent["link"]["url"]
        self.quote = Quote.objects.get(pk=sent["quote"]["id"])
        self.gross = Decimal(sent["quote"]["totals"]["gross"])
        self.path = f"jobs/{self.quote.job_id}"

    @cached_property
    def phone(self) -> Phone:
        return Phone(self.link)

    def read(self) -> dict[str, Any]:
        return dict(self.stage.client.get(f"{self.path}/account").json())

    def pay(self, amount: str, role: str = "advisor", **facts: Any) -> Any:
        today = shop_day(self.stage.shop, timezone.now()).isoformat()
        body = {"amount": amount, "received_on": today, "means": "card"} | facts
        return self.stage.cast.signed_in(role).post(f"{self.path}/payments", body)

    def reverse(self, payment: str, reason: str = "Typed twice") -> Any:
        return self.stage.client.post(f"{self.path}/payments/{payment}/reversal", {"reason": reason})


@pytest.fixture
def account(stage: Stage) -> Account:
    ask(stage)
    return Account(stage)


def faults(answer: Any) -> list[tuple[str, str]]:
    return [(fault["pointer"], fault["detail"]) for fault in answer.json()["errors"]]


def test_all_of_it_is_to_pay_once_the_customer_has_accepted(account: Account) -> None:
    answer = account.read()
    assert [(row["kind"], row["title"], row["amount"]) for row in answer["rows"]] == [
        ("agreed", f"Agreed, {account.quote} version 1", str(account.gross))
    ]
    assert answer["rows"][0]["consent"].startswith("Maren Oldacre, ")
    assert answer["rows"][0]["consent"].endswith(", on the link")
    assert (answer["total"], answer["received"], answer["due"]) == (str(account.gross), "0.00", str(account.gross))
    assert answer["settled"] == "due" and answer["payments"] == []


def test_a_payment_says_what_when_how_and_who_took_it(account: Account) -> None:
    answer = account.pay("400.00", reference=" slip 000417 ").json()
    payment = answer["payments"][0]
    assert (payment["amount"], payment["means"], payment["reference"]) == ("400.00", "card", "slip 000417")
    assert payment["recorded_by"] == account.stage.cast.advisor.user.name and not payment["reversed"]
    assert (answer["received"], answer["due"]) == ("400.00", str(account.gross - 400))
    assert History.objects.filter(subject="payment", verb="recorded").count() == 1


def test_the_deposit_is_received_once_as_much_has_come(account: Account) -> None:
    deposit = Decimal(account.read()["deposit"]["amount"])
    assert account.pay(str(deposit - 1)).json()["deposit"] == {
        "amount": str(deposit),
        "received": False,
        "words": "1.00 still to come",
    }
    assert account.pay("1.00", means="cash").json()["deposit"]["words"] == "received"


def test_a_mistake_is_reversed_by_an_opposite_row_once(account: Account) -> None:
    first = account.pay("400.00").json()["payments"][0]
    account.pay("40.00")
    answer = account.reverse(first["id"]).json()
    opposite = answer["payments"][-1]
    assert (opposite["amount"], opposite["reason"], opposite["reverses"]) == ("-400.00", "Typed twice", first["id"])
    assert [payment["reversed"] for payment in answer["payments"]] == [True, False, False]
    assert answer["received"] == "40.00"
    again, of_the_opposite = account.reverse(first["id"]), account.reverse(opposite["id"])
    assert again.status_code == of_the_opposite.status_code == 409
    assert again.json()["type"].endswith("payment-reversed")


def test_money_is_paid_back_with_a_reason_and_never_more_than_came(account: Account) -> None:
    account.pay("100.00")
    assert faults(account.pay("60.00", back=True)) == [("/reason", "Say why.")]
    assert faults(account.pay("100.01", back=True, reason="Badge left off")) == [
        ("/amount", "More than has been received cannot be paid back.")
    ]
    answer = account.pay("60.00", back=True, reason="Badge left off").json()
    assert answer["received"] == "40.00" and answer["payments"][-1]["amount"] == "-60.00"


@pytest.mark.parametrize(
    ("amount", "facts", "fault"),
    [
        ("0.00", {}, ("/amount", "Enter an amount above 0.")),
        ("-5", {}, ("/amount", "Enter an amount above 0.")),
        ("1.005", {}, ("/amount", "Enter at most 2 decimal places.")),
        (
            "1.00",
            {"received_on": "2090-01-01"},
            ("/received_on", "Enter the day on which the money was received. It cannot be in the future."),
        ),
        ("1.00", {"received_on": "1990-01-01"}, ("/received_on", "")),
        ("1.00", {"means": "barter"}, ("/means", "")),
    ],
)
def test_what_cannot_be_a_payment_is_refused(
    account: Account, amount: str, facts: dict[str, str], fault: tuple[str, str]
) -> None:
    [(pointer, words)] = faults(account.pay(amount, **facts))
    assert pointer == fault[0] and words.startswith(fault[1])
    assert not Payment.objects.exists()


def test_a_day_to_come_is_one_after_today_in_the_shops_zone(account: Account) -> None:
    tomorrow = shop_day(account.stage.shop, timezone.now()) + timedelta(days=1)
    assert faults(account.pay("1.00", received_on=tomorrow.isoformat())) == [
        ("/received_on", "Enter the day on which the money was received. It cannot be in the future.")
    ]


def test_a_payment_of_another_job_is_not_found(account: Account) -> None:
    payment = account.pay("1.00").json()["payments"][0]["id"]
    other = JobFactory(shop=account.stage.shop, number=900_002)
    path = f"jobs/{other.pk}/payments/{payment}/reversal"
    assert account.stage.client.post(path, {"reason": "Wrong job"}).status_code == 404


@pytest.mark.parametrize("role", ["parts", "technician"])
def test_who_sees_no_price_sees_no_account(account: Account, role: str) -> None:
    assert account.stage.cast.signed_in(role).get(f"{account.path}/account").status_code == 403
    assert account.pay("1.00", role=role).status_code == 403


def test_the_manager_records_payments_too(account: Account) -> None:
    assert account.pay("1.00", role="manager").status_code == 201


def test_more_payments_take_no_more_queries(account: Account) -> None:
    def queries() -> int:
        with CaptureQueriesContext(connection) as captured:
            account.read()
        return len(captured)

    account.pay("1.00")
    before = queries()
    for _ in range(4):
        account.pay("1.00")
    assert queries() == before


@pytest.mark.both
def test_the_database_keeps_payments_as_they_are(account: Account) -> None:
    account.pay("100.00")
    row = Payment.objects.get()
    for change in (lambda: Payment.objects.update(amount=1), lambda: Payment.objects.all().delete()):
        with pytest.raises(IntegrityError, match="payment_never_changes"), transaction.atomic():
            change()
    row.pk, row.amount, row.received_on = None, Decimal(-5), date(2026, 1, 2)
    with pytest.raises(IntegrityError, match="payment_back_has_a_reason"), transaction.atomic():
        row.save(force_insert=True)


def test_the_receipt_says_whether_the_deposit_was_received(account: Account) -> None:
    def receipt() -> str:
        return str(account.phone.client.get(f"{account.phone.page}receipt").content.decode())

    assert "not received yet" in receipt()
    deposit = Decimal(account.read()["deposit"]["amount"])
    account.pay(str(deposit - 5))
    assert "5.00 still to come" in receipt()
    account.pay("5.00")
    assert "not received yet" not in receipt() and ">received<" in receipt()


def test_the_receipt_reminds_of_the_deposit_until_it_is_received(account: Account) -> None:
    def receipt() -> str:
        return str(account.phone.client.get(f"{account.phone.page}receipt").content.decode())

    assert "Please pay the deposit: we order once we have it." in receipt()
    account.pay(str(account.gross))
    assert "Please pay" not in receipt() and "We have your answer and are getting ready." in receipt()
