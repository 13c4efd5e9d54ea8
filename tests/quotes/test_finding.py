"""The one box that finds everything, as each role may see it."""

from typing import Any

import pytest

from shop import finding
from shop.models import Vehicle
from tests.factories import CodeFactory, CustomerFactory, KitFactory, PartFactory
from tests.quotes.stage import Stage


def kinds(stage: Stage, role: str, typed: str) -> set[str]:
    items = stage.cast.signed_in(role).get("find", {"q": typed}).json()["items"]
    return {each["kind"] for each in items}


@pytest.mark.parametrize("role", ["technician", "parts"])
def test_who_does_not_quote_finds_no_quote_no_total_and_no_owner(stage: Stage, role: str) -> None:
    owner, vehicle = stage.customer, stage.vehicle
    quote = stage.quote().json()
    assert kinds(stage, "advisor", quote["number"]) == {"quote"}
    assert kinds(stage, "advisor", owner.name) == {"customer"}
    assert kinds(stage, role, vehicle.title) == {"vehicle"}
    for typed in (quote["number"], owner.name, owner.phone, vehicle.title, vehicle.plate, stage.turbo.title):
        found = stage.cast.signed_in(role).get("find", {"q": typed})
        assert not {"quote", "customer"} & kinds(stage, role, typed), typed
        for secret in (owner.name, owner.phone, str(owner.pk), quote["totals"]["gross"]):
            assert secret and secret.encode() not in found.content, (typed, secret)


def titles(stage: Stage, typed: str) -> list[str]:
    return [each["title"] for each in stage.client.get("find", {"q": typed}).json()["items"]]


def customers(stage: Stage, *names: str, **fields: Any) -> None:
    for name in names:
        CustomerFactory(shop=stage.cast.shop, name=name, **fields)


def test_what_begins_so_comes_before_what_holds_it_and_each_by_name(stage: Stage) -> None:
    customers(stage, "Fella Dee", "Cy Felling", "Bo Felling", "Fell Ada")
    customers(stage, "Felling, gone", archived=True)
    assert titles(stage, "fell") == ["Fell Ada", "Fella Dee", "Bo Felling", "Cy Felling"]
    assert titles(stage, "ll i") == ["Bo Felling", "Cy Felling"]


def test_a_handful_of_one_kind_is_six_and_none_stands_twice(stage: Stage) -> None:
    customers(stage, *(f"Tarn Tarn {at}" for at in range(8)), phone_key="tarn")
    assert titles(stage, "tarn") == [f"Tarn Tarn {at}" for at in range(6)]
    assert titles(stage, "tarn 7") == ["Tarn Tarn 7"]


def test_the_middle_of_a_name_is_looked_for_among_so_many_and_its_beginning_among_all(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    customers(stage, "Ada Quillback", "Bo Quillback", "Cy Quillback")
    monkeypatch.setattr(finding, "LOOKED_THROUGH", 2)
    assert titles(stage, "quillback") == ["Ada Quillback", "Bo Quillback"]
    assert titles(stage, "cy quill") == ["Cy Quillback"]


@pytest.mark.parametrize("typed", ["4417", "5-4417", "T35-4417", "tx t35-4417", "WTX T35-4417"])
def test_a_vehicle_is_found_by_the_end_of_its_vin(stage: Stage, typed: str) -> None:
    Vehicle.objects.filter(pk=stage.vehicle.pk).update(vin="WTX T35-4417", vin_tail="T35-4417")
    assert titles(stage, typed) == [stage.vehicle.title]


@pytest.mark.parametrize("typed", ["%%%%", "____", "441_", "VTX T35-4417", "417"])
def test_no_sign_stands_for_others_and_three_letters_of_a_vin_are_too_few(stage: Stage, typed: str) -> None:
    Vehicle.objects.filter(pk=stage.vehicle.pk).update(vin="WTX T35-4417", vin_tail="T35-4417")
    assert titles(stage, typed) == []


def test_a_kit_is_found_by_the_end_of_its_number_and_a_part_by_its_code(stage: Stage) -> None:
    shop = stage.cast.shop
    part = PartFactory(shop=shop, number="QF-7781")
    KitFactory(shop=shop, part=part, title="Strut brace")
    CodeFactory(shop=shop, part=part, code="09520000000011")
    assert titles(stage, "7781") == ["Strut brace"]
    assert titles(stage, "9520000000011") == ["QF-7781"]
