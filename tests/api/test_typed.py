"""Typed text is saved without invisible characters, and a control character is refused at its field."""

import io
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from quotes.models import Link
from shop.models import History, Member, Shop, Vehicle
from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage

REFUSED = "It contains an invalid character. Type it again."


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def test_a_vehicle_is_found_and_compared_by_what_can_be_seen(cast: Cast) -> None:
    body = {
        "title": "Tessark\u200b T35",
        "vin": "90T\u200bAB11C2D3098204",
        "attributes": {"trans\u200bmission": "man\u202eual", "\u3164": "x", "drive": "\u200b"},
        "capacities": {"cool\u200bant": "9.8"},
    }
    answer = cast.signed_in("advisor").post("vehicles", body)
    assert answer.status_code == 201, answer.content
    vehicle = Vehicle.objects.get(pk=answer.json()["id"])
    assert (vehicle.title, vehicle.title_key, vehicle.vin) == ("Tessark T35", "tessarkt35", "90TAB11C2D3098204")
    assert (vehicle.attributes, vehicle.capacities) == ({"transmission": "manual"}, {"coolant": "9.8"})


def test_history_keeps_what_was_kept(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    vehicle = client.post("vehicles", {"title": "Tessark T35"}).json()
    answer = client.patch(f"vehicles/{vehicle['id']}", {"attributes": {"drive": "al\u200bl"}}, seen='"1"')
    assert answer.status_code == 200, answer.content
    changes = History.objects.get(subject_id=vehicle["id"], verb="changed").changes
    assert changes == {"attributes": [{}, {"drive": "all"}]}


@pytest.mark.parametrize("attributes", [{"drive": "a\x07ll"}, {"dri\x07ve": "all"}])
def test_a_control_character_in_a_vehicles_facts_is_refused_there(cast: Cast, attributes: dict[str, str]) -> None:
    answer = cast.signed_in("advisor").post("vehicles", {"title": "Tessark T35", "attributes": attributes})
    assert answer.status_code == 400
    assert answer.json()["errors"] == [{"pointer": "/attributes", "detail": REFUSED}]


def send(stage: Stage, recipient: str) -> Any:
    draft = stage.quote(stage.turbo).json()
    return stage.client.post(f"quotes/{draft['id']}/send", {"version": draft["version"], "recipient": recipient})


def test_a_links_recipient_is_kept_as_it_can_be_seen(stage: Stage) -> None:
    assert send(stage, "Maren\u202e Old\u200bacre").status_code == 201
    assert Link.objects.get().recipient == "Maren Oldacre"
    changes = History.objects.filter(verb__in=("sent", "linked")).values_list("changes", flat=True)
    assert list(changes) == [{"recipient": ["", "Maren Oldacre"]}] * 2
    refused = send(stage, "Maren\x07")
    assert refused.status_code == 400 and refused.json()["errors"] == [{"pointer": "/recipient", "detail": REFUSED}]


@pytest.mark.parametrize("reason", ["\u200b", "from the\x07 shelf"])
def test_the_reason_of_a_figure_is_refused_at_its_field(stage: Stage, reason: str) -> None:
    draft = stage.quote(stage.turbo)
    path = f"quotes/{draft.json()['id']}/overrides/{draft.json()['kits'][0]['key']}"
    refused = stage.client.put(path, {"value": "70", "because": reason}, seen=draft)
    assert refused.status_code == 400, refused.content
    assert [error["pointer"] for error in refused.json()["errors"]] == ["/because"]


def command(name: str, *args: str) -> None:
    call_command(name, *args, stdout=io.StringIO())


def test_a_persons_name_is_kept_as_it_can_be_seen(cast: Cast) -> None:
    args = ("parts@saltmarsh.example", "--shop", "saltmarsh", "--role", "parts", "--name")
    command("member", *args, "Lin\u200bnet Ashe")
    assert Member.objects.get(pk=cast.parts.pk).user.name == "Linnet Ashe"
    with pytest.raises(CommandError, match=f"^name: {REFUSED}$"):
        command("member", *args, "Linnet\x1b[31m")


def test_a_workshops_own_facts_are_kept_as_they_can_be_seen(cast: Cast) -> None:
    args = ("saltmarsh", "--currency", "EUR", "--zone", "Europe/Berlin")
    command("shop", *args, "--name", "Salt\u200bmarsh Lane", "--address", "4 Salt\u202emarsh Lane")
    shop = Shop.objects.get(slug="saltmarsh")
    assert (shop.name, shop.address) == ("Saltmarsh Lane", "4 Saltmarsh Lane")
    with pytest.raises(CommandError, match=f"^address: {REFUSED}$"):
        command("shop", *args, "--name", "Saltmarsh Lane", "--address", "4 Saltmarsh Lane\nregistered")


@pytest.mark.parametrize("tag", ["", "english", "en_GB", "EN-gb", "en-GB\n", "e"])
def test_a_language_is_a_tag_that_others_can_read(cast: Cast, tag: str) -> None:
    args = ("saltmarsh", "--currency", "EUR", "--zone", "Europe/Berlin", "--name", "Saltmarsh Lane")
    with pytest.raises(CommandError, match="^language: "):
        command("shop", *args, "--language", tag)
    command("shop", *args, "--language", "pl")
    assert Shop.objects.get(slug="saltmarsh").language == "pl"
