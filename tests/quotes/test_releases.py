"""An acceptance orders nothing: a person releases what it proposes, or the deposit does where the rules say so."""

import re
from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from kitting.models import PullLine, PullList
from quotes.models import Release
from quotes.queries.pricing import shop_day
from shop.models import Job
from tests.factories import JobFactory
from tests.kitting.stage import Phone as CountingPhone
from tests.kitting.stage import send
from tests.quotes.changing import accept, begin, off
from tests.quotes.stage import Stage
from tests.quotes.test_account import Account
from tests.quotes.test_deposit import ask

pytestmark = pytest.mark.once


@pytest.fixture
def account(stage: Stage) -> Account:
    ask(stage)
    return Account(stage)


def read(account: Account, role: str = "parts") -> dict[str, Any]:
    return dict(account.stage.cast.signed_in(role).get(f"{account.path}/releases").json())


def release(account: Account, role: str = "parts") -> Any:
    return account.stage.cast.signed_in(role).post(f"{account.path}/releases", {})


def numbers(content: dict[str, Any]) -> list[str]:
    return [line["number"] for order in content["suppliers"] for line in order["lines"]]


def test_an_acceptance_proposes_orders_and_releases_none(account: Account) -> None:
    answer = read(account)
    assert {"BI-T", "QF-T"} <= set(numbers(answer["proposed"]))
    assert answer["releases"] == [] and answer["stops"] == [] and not Release.objects.exists()
    assert answer["notes"] == ["The deposit has not been received yet."]


def test_a_release_keeps_who_when_and_what(account: Account) -> None:
    proposed = read(account)["proposed"]
    answer = release(account).json()
    (past,) = answer["releases"]
    assert past["by"] == account.stage.cast.parts.user.name
    assert (past["suppliers"], past["text"]) == (proposed["suppliers"], proposed["text"])
    assert "1 × BI-T Turbocharger kit" in past["text"].splitlines()
    assert len(answer["notes"]) == 1  # on the deposit


def test_what_was_released_is_not_proposed_again(account: Account) -> None:
    release(account)
    answer = read(account)
    assert answer["proposed"]["suppliers"] == [] and answer["stops"] == ["All that is proposed was released before."]
    assert release(account).status_code == 409 and Release.objects.count() == 1


def test_what_came_of_a_release_and_cannot_be_used_is_proposed_again(account: Account) -> None:
    lines = {line.part.number: line for line in PullLine.objects.filter(kit="BI-T", part__isnull=False)}
    number, line = max(lines.items(), key=lambda pair: pair[1].quantity)
    count = counting(account)
    release(account)
    for other in lines.values():
        count(other, int(other.quantity))
    count(line, int(line.quantity) - 2)
    answer = release(account).json()
    assert numbers(answer["releases"][0]) == [number] and "BI-T" not in numbers(answer["proposed"])
    count(line, int(line.quantity), damaged=1)  # both came, one of them damaged
    (again,) = [row for order in read(account)["proposed"]["suppliers"] for row in order["lines"]]
    assert (again["number"], again["quantity"]) == (number, "1")
    assert numbers(release(account).json()["proposed"]) == []
    count(line, int(line.quantity) + 1, damaged=2)
    assert numbers(read(account)["proposed"]) == [number]
    count(line, int(line.quantity) + 2, damaged=2)
    assert numbers(read(account)["proposed"]) == []


def test_a_job_that_is_called_off_names_what_was_ordered_and_has_not_come(account: Account) -> None:
    def ordered() -> list[str]:
        return list(account.stage.client.get(f"{account.path}/call-off").json()["ordered"])

    assert ordered() == []
    release(account)
    before = ordered()
    assert any("1 × BI-T, Turbocharger kit, was ordered" in sentence for sentence in before)
    counting(account)(PullLine.objects.filter(kit="BI-T").order_by("position")[0], 1)
    assert [sentence for sentence in before if sentence not in ordered()] == [
        sentence for sentence in before if "BI-T" in sentence
    ]


def counting(account: Account) -> Any:
    """Counts a line of the job's pull list."""
    pull_list = PullList.objects.get(job=Job.objects.get())
    phone = CountingPhone(pull_list)

    def count(line: PullLine, total: int, damaged: int = 0) -> None:
        parts = account.stage.cast.signed_in("parts")
        send(parts, pull_list, phone.event(line, total=total, damaged=damaged))

    return count


def add_the_towing_kit(account: Account) -> None:
    """A change to the job that the customer accepted."""
    change = begin(account.stage, Job.objects.get())
    kit = {"kind": "kit", "kit": str(account.stage.towing.pk)}
    accept(account.stage, account.stage.client.post(f"quotes/{change['id']}/lines", kit).json())


def test_a_change_is_released_alone(account: Account) -> None:
    release(account)
    add_the_towing_kit(account)
    answer = read(account)
    assert numbers(answer["proposed"]) == ["QF-T"] and answer["stops"] == []
    assert answer["notes"][-1] == "What was released before is not included again."
    quantities = [
        line["quantity"] for order in release(account).json()["releases"][0]["suppliers"] for line in order["lines"]
    ]
    assert quantities == ["1"]


def test_what_a_change_removes_is_named_for_cancelling_unless_it_has_come(account: Account) -> None:
    """Two towing kits go before they came, the turbocharger kit when one of its lines was counted."""
    add_the_towing_kit(account)
    release(account)
    begun, job = account.stage, Job.objects.get()
    assert not any("any more" in note for note in read(account)["notes"])
    accept(begun, off(begun, begin(begun, job), begun.towing.title))
    (words,) = [note for note in read(account)["notes"] if "any more" in note]
    assert re.match(r"Brightwater Induction \d+: 2 × QF-T, Towing kit, was ordered and is not needed any more\.", words)
    counting(account)(PullLine.objects.filter(kit="BI-T").order_by("position")[0], 1)
    accept(begun, off(begun, begin(begun, job), begun.turbo.title))
    assert not any("BI-T" in note for note in read(account)["notes"])


def test_no_price_and_no_cost_is_in_it(account: Account) -> None:
    release(account)
    words = str(read(account))
    assert "price" not in words and "cost" not in words and "€" not in words


def test_nothing_is_released_while_the_customer_may_withdraw(account: Account) -> None:
    tomorrow = shop_day(account.stage.shop, timezone.now()) + timedelta(days=1)
    Job.objects.update(not_before=tomorrow)
    answer = release(account)
    assert answer.status_code == 409 and answer.json()["type"].endswith("release-too-early")
    assert len(read(account)["stops"]) == 1 and not Release.objects.exists()


def test_a_job_without_lists_has_nothing_to_release(account: Account) -> None:
    job = JobFactory(shop=account.stage.shop, number=900_002)
    client = account.stage.cast.signed_in("parts")
    assert client.get(f"jobs/{job.pk}/releases").json()["stops"] == ["There is nothing to order."]
    assert client.post(f"jobs/{job.pk}/releases", {}).status_code == 409


def test_the_deposit_releases_only_where_the_rules_say_so(account: Account) -> None:
    account.pay(account.read()["deposit"]["amount"])
    assert not Release.objects.exists()


@pytest.fixture
def by_deposit(stage: Stage) -> Account:
    ask(stage, deposit={"releases": True})
    return Account(stage)


def test_the_payment_that_completes_the_deposit_releases_once(by_deposit: Account) -> None:
    released = "These orders are released as soon as the whole deposit is recorded."
    assert read(by_deposit)["notes"] == ["The deposit has not been received yet.", released]
    part = by_deposit.pay("1.00").json()
    assert not Release.objects.exists() and [payment["released"] for payment in part["payments"]] == [""]
    assert read(by_deposit)["notes"] == ["Only part of the deposit has been received.", released]
    whole = by_deposit.pay(by_deposit.read()["deposit"]["amount"]).json()
    firms = [order["supplier"] for order in Release.objects.get().content["suppliers"]]
    words = f"With it, the orders to {' and '.join(firms)} were released."
    assert [payment["released"] for payment in whole["payments"]] == ["", words]
    add_the_towing_kit(by_deposit)
    by_deposit.pay("1.00")
    assert numbers(read(by_deposit)["proposed"]) == ["QF-T"]  # a person releases what a change adds
    (past,) = read(by_deposit)["releases"]
    assert past["by"] == f"With the deposit, recorded by {by_deposit.stage.cast.advisor.user.name}"
    assert Release.objects.get().payment is not None


def test_the_deposit_of_a_job_that_has_ended_orders_nothing(by_deposit: Account) -> None:
    by_deposit.stage.client.post(f"{by_deposit.path}/call-off", {"because": "Sold the vehicle"})
    answer = read(by_deposit)
    assert answer["stops"] == ["The job was called off, so nothing more is ordered for it."]
    assert answer["proposed"]["suppliers"] == [] and release(by_deposit).status_code == 409
    by_deposit.pay(by_deposit.read()["deposit"]["amount"])
    day = shop_day(by_deposit.stage.shop, timezone.now())
    Job.objects.update(state="handed_over", called_off_on=None, called_off_reason="", in_bay_on=day, handed_over_on=day)
    by_deposit.pay("1.00")
    assert not Release.objects.exists() and read(by_deposit)["stops"] == []


def test_the_deposit_waits_for_the_end_of_the_withdrawal_period(by_deposit: Account) -> None:
    Job.objects.update(not_before=shop_day(by_deposit.stage.shop, timezone.now()) + timedelta(days=1))
    by_deposit.pay(by_deposit.read()["deposit"]["amount"])
    assert not Release.objects.exists()


def test_a_technician_releases_nothing(account: Account) -> None:
    assert release(account, role="technician").status_code == 403


@pytest.mark.both
def test_the_database_keeps_releases_as_they_are(account: Account) -> None:
    release(account)
    with pytest.raises(IntegrityError, match="release_never_changes"), transaction.atomic():
        Release.objects.update(content={})
