import uuid

import pytest

from shop.models import Command, Customer, History, Vehicle
from tests.cast import Cast

pytestmark = pytest.mark.once


@pytest.fixture
def maren(cast: Cast) -> dict:
    return cast.signed_in("advisor").post("customers", {"name": "Maren Oldacre", "phone": "01632 960 417"}).json()


def test_a_customer_is_found_as_people_type(cast: Cast, maren: dict) -> None:
    client = cast.signed_in("advisor")
    client.post("customers", {"name": "Ärmel Ölund"})
    for typed, name in [
        ("old", "Maren Oldacre"),
        ("MAREN O", "Maren Oldacre"),
        ("960417", "Maren Oldacre"),
        ("ärm", "Ärmel Ölund"),
    ]:
        items = client.get("customers", {"q": typed}).json()["items"]
        assert [item["name"] for item in items] == [name]


def test_a_vehicle_belongs_to_its_customer_and_its_vin_is_only_a_warning(cast: Cast, maren: dict) -> None:
    client = cast.signed_in("advisor")
    vehicle = client.post(
        "vehicles",
        {
            "title": "Tessark T35 estate",
            "customer": maren["id"],
            "vin": "oskr 2345-6789",
            "plate": "KD 71 OLA",
            "attributes": {"transmission": "automatic"},
            "capacities": {"coolant": "14.20"},
        },
    ).json()
    assert vehicle["vin"] == "OSKR23456789" and vehicle["vin_check"]["status"] == "malformed"
    assert vehicle["capacities"] == {"coolant": "14.2"}
    assert client.get(f"customers/{maren['id']}").json()["vehicles"][0]["id"] == vehicle["id"]
    assert [item["id"] for item in client.get("vehicles", {"q": "kd71"}).json()["items"]] == [vehicle["id"]]


def test_the_same_key_gives_the_stored_answer_and_no_second_row(cast: Cast) -> None:
    client, key = cast.signed_in("advisor"), str(uuid.uuid4())
    first = client.post("customers", {"name": "Ferran Holds"}, key=key)
    again = client.post("customers", {"name": "Ferran Holds"}, key=key)
    assert (first.status_code, again.status_code, again.json()) == (201, 201, first.json())
    assert Customer.objects.count() == 1 and Command.objects.count() == 1
    other = client.post("customers", {"name": "Somebody else"}, key=key)
    assert (other.status_code, other.json()["type"]) == (422, "/problems/key-reused")


@pytest.mark.parametrize(("key", "slug"), [(None, "key-required"), ("no-uuid", "key-malformed")])
def test_a_post_needs_a_key(cast: Cast, key: str | None, slug: str) -> None:
    answer = cast.signed_in("advisor").post("customers", {"name": "Iva"}, key=key)
    assert (answer.status_code, answer.json()["type"]) == (400, f"/problems/{slug}")


def test_a_change_needs_the_version_that_was_seen(cast: Cast, maren: dict) -> None:
    client, path = cast.signed_in("advisor"), f"customers/{maren['id']}"
    seen = client.get(path)
    assert client.patch(path, {"phone": "01632 960 801"}).status_code == 428
    changed = client.patch(path, {"phone": "01632 960 801"}, seen=seen)
    assert changed.status_code == 200 and changed.json()["version"] == 2
    assert client.patch(path, {"phone": "01632 960 802"}, seen=seen).status_code == 412
    assert client.patch(path, {"phone": "01632 960 802"}, seen=changed).status_code == 200
    assert History.objects.filter(verb="changed").first().changes == {"phone": ["01632 960 417", "01632 960 801"]}


def test_a_repeated_read_costs_no_body(cast: Cast, maren: dict) -> None:
    client, path = cast.signed_in("advisor"), f"customers/{maren['id']}"
    assert client.get(path, headers={"If-None-Match": client.get(path)["ETag"]}).status_code == 304


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({}, "/name"),
        ({"name": ""}, "/name"),
        ({"name": "x" * 121}, "/name"),
        ({"name": "Iva", "nam": "x"}, "/nam"),
        ({"name": "Iva", "email": "no"}, "/email"),
    ],
)
def test_bad_input_names_the_field_and_saves_nothing(cast: Cast, body: dict, pointer: str) -> None:
    answer = cast.signed_in("advisor").post("customers", body)
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.json()["errors"]] == [pointer]
    assert not Customer.objects.exists() and not Command.objects.exists()


def test_the_same_vin_twice_is_refused_in_words(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    body = {"title": "Vell 2.4", "vin": "0TB1MZW00A7YW24HU"}
    assert client.post("vehicles", body).status_code == 201
    answer = client.post("vehicles", body)
    assert answer.status_code == 409 and "last six" in answer.json()["detail"]
    assert Vehicle.objects.count() == 1


def test_pages_follow_one_another_in_the_link_header(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    for n in range(5):
        client.post("customers", {"name": f"Å & Söhne > {n}"})
    first = client.get("customers", {"limit": "3", "q": "å & söhne >"})
    following = first["Link"].split("<")[1].split(">")[0]
    rest = client.get(following)
    names = [item["name"] for answer in (first, rest) for item in answer.json()["items"]]
    assert names == [f"Å & Söhne > {n}" for n in range(5)] and "Link" not in rest


def test_an_unknown_question_is_refused(cast: Cast) -> None:
    answer = cast.signed_in("advisor").get("customers", {"colour": "green"})
    assert answer.status_code == 400 and "colour" in answer.json()["detail"]


def test_a_question_put_twice_is_refused(cast: Cast) -> None:
    answer = cast.signed_in("advisor").get("customers?q=old&q=acre")
    assert answer.status_code == 400 and answer.json()["detail"] == "Send 'q' once."


def test_a_customer_has_an_address(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    answer = client.post("customers", {"name": "Maren Oldacre", "address": "4 Quay Row, Wendlow"})
    assert answer.json()["address"] == "4 Quay Row, Wendlow"
    path = f"customers/{answer.json()['id']}"
    assert (
        client.patch(path, {"address": "9 Quay Row, Wendlow"}, seen=answer).json()["address"] == "9 Quay Row, Wendlow"
    )
    assert client.get(path).json()["address"] == "9 Quay Row, Wendlow"
