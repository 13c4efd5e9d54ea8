"""A row of everything that has an address, for tests that walk all addresses."""

import io
from datetime import date
from typing import Any

from django.test import override_settings

from kitting.models import (
    KitLine,
    Part,
    PullLine,
    PullList,
    Supplier,
)
from quotes.models import Quote, Release
from shop.models import (
    LabourTemplate,
    Operation,
    RuleSet,
    Vehicle,
)
from tests.api.asked import upload
from tests.api.bodies import OUTSIDE, SEIZED
from tests.calc.test_pictures import jpeg
from tests.factories import CustomerFactory, JobFactory, PartFactory, PullListFactory
from tests.kitting.stage import Phone as CountingPhone
from tests.kitting.stage import send
from tests.kitting.test_coolant_in_the_bay import SOLD
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage


def one_of_each(stage: Stage) -> dict[str, list[Any]]:
    """{collection: ids of its rows}; several where what is read depends on the row's state."""
    draft = stage.quote().json()
    outside = stage.client.post(f"quotes/{draft['id']}/outside", OUTSIDE)
    assert outside.status_code == 201, outside.content
    line = outside.json()["outside"][0]["line"]
    pictured = stage.client.post(
        f"quotes/{draft['id']}/lines/{line}/photographs",
        {"file": upload(jpeg()), "caption": "Your bracket"},
        format="multipart",
    )
    assert pictured.status_code == 201, pictured.content
    in_case = stage.client.post(f"quotes/{stage.quote().json()['id']}/contingencies", SEIZED)
    assert in_case.status_code == 201, in_case.content
    body = {"version": in_case.json()["version"], "recipient": "x", "below_floor": True}
    sent = stage.client.post(f"quotes/{in_case.json()['id']}/send", body).json()
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    accepted = Quote.objects.get(pk=sent["quote"]["id"])
    first = RuleSet.objects.get(shop=stage.cast.shop)
    RuleSet.objects.create(shop=first.shop, number=2, valid_from=date(2026, 2, 1), rules=first.rules)
    pull_list = PullList.objects.get(job=accepted.job)
    send(stage.client, pull_list, CountingPhone(pull_list).event(PullLine.objects.filter(pull_list=pull_list)[0]))
    happened = stage.client.post(
        f"jobs/{accepted.job_id}/occurrences", {"line": in_case.json()["contingencies"][0]["line"], "count": 3}
    )
    assert happened.status_code == 201, happened.content
    record = happened.json()["lines"][0]["records"][0]["id"]
    address = f"jobs/{accepted.job_id}/occurrences/{record}/photographs"
    photographed = stage.client.post(address, {"file": upload(jpeg())}, format="multipart")
    assert photographed.status_code == 201, photographed.content
    coolant = JobFactory(shop=stage.cast.shop, number=900_001)
    Vehicle.objects.filter(pk=coolant.vehicle_id).update(capacities={"coolant": "14.2"})
    PullListFactory(shop=stage.cast.shop, job=coolant, facts={"circuits": [SOLD]})
    file = io.BytesIO(b"Name;Phone\nAda Quill;01632 960 401\n")
    file.name = "list.csv"
    read = stage.client.post("imports", {"kind": "customers", "file": file}, format="multipart")
    assert read.status_code == 201, read.content
    released = stage.client.post(f"jobs/{accepted.job_id}/releases")
    assert released.status_code == 201, released.content
    release = Release.objects.get(job=accepted.job)
    account = stage.client.get(f"jobs/{accepted.job_id}/account").json()
    closed = stage.client.post(f"jobs/{accepted.job_id}/closing-account", {"due": account["due"]})
    assert closed.status_code == 201, closed.content
    revised = stage.sent()["quote"]["id"]
    assert stage.client.post(f"quotes/{revised}/revise").status_code == 201
    hook = {"title": "Books", "url": "https://127.0.0.1/", "events": ["quote.declined"]}
    with override_settings(WEBHOOK_PRIVATE_TARGETS=True):
        webhook = stage.cast.signed_in("manager").post("webhooks", hook).json()["webhook"]["id"]
    assert stage.cast.signed_in("manager").post(f"webhooks/{webhook}/trial").status_code == 201
    pack = Part.objects.filter(shop=stage.cast.shop, kind="pack").earliest("number")
    replaced = PartFactory(shop=stage.cast.shop, superseded_by=PartFactory(shop=stage.cast.shop))
    return {
        "quotes": [draft["id"], accepted.pk, stage.sent()["quote"]["id"], revised],
        "jobs": [accepted.job_id, coolant.pk],
        "pull-lists": [pull_list.pk],
        "customers": [stage.customer.pk],
        "namesakes": [CustomerFactory(shop=stage.cast.shop).pk],
        "vehicles": [stage.vehicle.pk],
        "kits": [stage.turbo.pk],
        "parts": [KitLine.objects.filter(revision__kit=stage.turbo, part__isnull=False)[0].part_id],
        "imports": [read.json()["id"]],
        "replaced-numbers": [replaced.pk],
        "suppliers": [Supplier.objects.filter(shop=stage.cast.shop).earliest("name").pk],
        "consumables": [pack.consumable_id],
        "pack": [pack.pk],
        "templates": [LabourTemplate.objects.filter(shop=stage.cast.shop).latest("number").pk],
        "operations": [Operation.objects.filter(shop=stage.cast.shop).earliest("code").pk],
        "people": [stage.cast.technician.pk],
        "rules": [first.pk],
        "webhooks": [webhook],
        "photograph": photographed.json()["lines"][0]["records"][0]["photographs"],
        "line": [line],
        "release": [release.pk],
        "suppliers by name": [release.content["suppliers"][0]["supplier"]],
        "line photograph": [pictured.json()["photographs"][0]["id"]],
    }
