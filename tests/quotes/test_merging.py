"""Two records of one customer are put together: one stays with everything, the other leads to it."""

import json
from typing import Any

import pytest

from quotes.models import Quote, Revision
from shop.models import Customer, CustomerWord, History, Job, Vehicle
from tests.factories import CustomerFactory, VehicleFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once


def second_record(stage: Stage) -> Customer:
    record: Customer = CustomerFactory(shop=stage.shop, name="M. Oldacre", phone="", email="maren@oldacre.example")
    return record


def preview(stage: Stage, stays: Customer, goes: Customer) -> Any:
    return stage.client.get(f"customers/{stays.pk}/merge", {"other": str(goes.pk)})


def merge(stage: Stage, stays: Customer, goes: Customer, **versions: int) -> Any:
    seen = {"version": stays.version, "other_version": goes.version} | versions
    return stage.client.post(f"customers/{stays.pk}/merge", {"other": str(goes.pk)} | seen)


def test_it_says_before_what_will_move_and_moves_it(stage: Stage) -> None:
    stage.accepted()
    stage.quote()
    goes, stays = stage.customer, second_record(stage)
    before = preview(stage, stays, goes).json()
    assert before["words"] == "M. Oldacre gets 2 quotes, 1 vehicle and 1 job of Maren Oldacre."
    assert before["fields"] == ["The telephone number 01632 960 417 is added."]
    frozen = list(Revision.objects.exclude(snapshot="").values_list("snapshot", "digest"))
    answer = merge(stage, stays, goes)
    assert answer.status_code == 200, answer.content
    body = answer.json()
    assert (body["id"], body["phone"], body["email"]) == (str(stays.pk), "01632 960 417", "maren@oldacre.example")
    assert [vehicle["id"] for vehicle in body["vehicles"]] == [str(stage.vehicle.pk)]
    assert {row.customer_id for table in (Quote, Job, Vehicle) for row in table.objects.all()} == {stays.pk}
    assert list(Revision.objects.exclude(snapshot="").values_list("snapshot", "digest")) == frozen
    record = History.objects.get(verb="merged", subject_id=stays.pk)
    assert (record.changes["record"], record.changes["quotes"]) == ([str(goes.pk), goes.name], [0, 2])
    assert History.objects.filter(verb="merged away", subject_id=goes.pk).exists()


def test_the_record_that_went_is_in_no_list_and_leads_to_the_one_that_stays(stage: Stage) -> None:
    first, second, third = stage.customer, second_record(stage), second_record(stage)
    assert merge(stage, second, first).status_code == 200
    assert merge(stage, third, Customer.objects.get(pk=second.pk)).status_code == 200
    client = stage.client
    assert client.get(f"customers/{first.pk}").json()["id"] == str(third.pk)
    assert [row["id"] for row in client.get("customers").json()["items"]] == [str(third.pk)]
    assert set(CustomerWord.objects.values_list("target", flat=True)) == {third.pk}
    assert client.get("find", {"q": "Maren"}).json()["items"] == []
    assert client.post("quotes", {"customer": str(first.pk)}).json()["customer"]["id"] == str(third.pk)


def test_a_quote_that_was_sent_before_is_accepted_for_the_record_that_stays(stage: Stage) -> None:
    sent = stage.sent()
    stays = second_record(stage)
    assert merge(stage, stays, stage.customer).status_code == 200
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    assert (Job.objects.get().customer, Quote.objects.get().customer) == (stays, stays)
    assert json.loads(Revision.objects.get().snapshot)["customer"]["name"] == "Maren Oldacre"


def test_undo_in_a_draft_keeps_to_the_record_that_stays(stage: Stage) -> None:
    quote = stage.quote().json()
    stays, other = second_record(stage), second_record(stage)
    changed = stage.client.patch(f"quotes/{quote['id']}", {"customer": str(other.pk)}, seen=f'"{quote["version"]}"')
    assert merge(stage, stays, stage.customer).status_code == 200
    undone = stage.client.post(f"quotes/{quote['id']}/undo", {"version": changed.json()["version"]})
    assert undone.json()["customer"]["id"] == str(stays.pk), undone.content


def test_it_refuses_one_and_the_same_and_a_record_that_changed(stage: Stage) -> None:
    stays = second_record(stage)
    assert preview(stage, stays, stays).json()["errors"][0]["pointer"] == "/other"
    assert merge(stage, stays, stage.customer, other_version=7).json()["type"].endswith("customers-changed-meanwhile")
    assert merge(stage, stays, stage.customer).status_code == 200
    assert merge(stage, stays, stage.customer).json()["errors"][0]["pointer"] == "/other"


@pytest.mark.both
def test_many_vehicles_move_in_as_few_statements_as_one(stage: Stage) -> None:
    few = queries(lambda: merge(stage, second_record(stage), stage.customer))
    goes, stays = second_record(stage), second_record(stage)
    vehicles = [VehicleFactory(shop=stage.shop, customer=goes) for _ in range(6)]
    assert queries(lambda: merge(stage, stays, goes)) <= few
    assert {
        (row.customer, row.version) for row in Vehicle.objects.filter(pk__in=[vehicle.pk for vehicle in vehicles])
    } == {(stays, 2)}
