"""The first shop: opened once, with the code of the running server, and only while there is none."""

from datetime import date
from functools import partial
from io import StringIO
from typing import Any

import pytest
from django.conf import settings
from django.core.management import call_command

from shop.errors import RequestError
from shop.models import Member, OpeningCode, RuleSet, Shop, User
from shop.rule_presets import PRESETS, has_own_rates
from shop.services.opening import _digest, new_opening_code, open_workshop, slug_of
from shop.services.people import open_shop
from shop.services.rules import refusal
from tests.at_once import at_once
from tests.cast import Cast
from tests.client import CheckedClient

OPENING = "/api/v1/opening"
SESSION = "/api/v1/session"
FACTS = {
    "name": "Copper Fell Fitting",
    "address": "2 Ropewalk",
    "phone": "01632 960 417",
    "email": "desk@copperfell.example",
    "registration": "Fell register 417",
    "currency": "eur",
    "zone": "Europe/Vienna",
    "manager_name": "Maude Calder",
    "manager_email": "Maude@copperfell.example",
    "password": "wet slate quarry",
    "password_again": "wet slate quarry",
    "preset": "private",
}


@pytest.fixture
def code(db: None) -> str:
    opening_code = new_opening_code()
    assert opening_code
    return opening_code


def pointers(answer: Any) -> list[str]:
    assert answer.status_code == 400, answer.content
    return [error["pointer"] for error in answer.json()["errors"]]


def test_it_opens_the_shop_with_its_manager_and_rules_and_signs_in(code: str, client: CheckedClient) -> None:
    assert client.get(SESSION).json()["to_open"] is True
    answer = client.post(OPENING, FACTS | {"code": code.lower().replace("-", " ")})
    assert answer.status_code == 201, answer.content
    shop = Shop.objects.get()
    assert (shop.slug, shop.name, shop.currency, shop.exponent) == ("copper-fell-fitting", FACTS["name"], "EUR", 2)
    assert (shop.address, shop.phone, shop.registration) == ("2 Ropewalk", "01632 960 417", "Fell register 417")
    assert (shop.email, shop.zone, shop.language) == ("desk@copperfell.example", "Europe/Vienna", "en-GB")
    member = Member.objects.get()
    assert (member.role, member.user.name, member.user.email) == (
        "manager",
        "Maude Calder",
        "maude@copperfell.example",
    )
    assert RuleSet.objects.get().rules == PRESETS["private"]
    state = client.get(SESSION).json()
    assert state["signed_in"] is True and state["to_open"] is False
    assert [(own["slug"], own["role"]) for own in state["shops"]] == [("copper-fell-fitting", "manager")]
    assert client.get("/api/v1/shops/copper-fell-fitting/rules/in-force").status_code == 200


def test_it_opens_once(code: str, client: CheckedClient) -> None:
    assert client.post(OPENING, FACTS | {"code": code}).status_code == 201
    again = CheckedClient().post(OPENING, FACTS | {"code": code, "name": "Another"})
    assert (again.status_code, again.json()["type"]) == (409, "/problems/shop-exists")
    assert CheckedClient().get(OPENING).status_code == 404
    assert Shop.objects.count() == 1 and not OpeningCode.objects.exists()


def test_there_is_nothing_to_open_beside_a_shop(cast: Cast, client: CheckedClient) -> None:
    assert client.get(SESSION).json()["to_open"] is False
    assert client.get(OPENING).status_code == 404
    assert client.post(OPENING, FACTS | {"code": "4KTM-9XWD-PQ2F"}).status_code == 409
    assert new_opening_code() is None


def test_it_refuses_another_code_and_writes_nothing(code: str, client: CheckedClient) -> None:
    assert pointers(client.post(OPENING, FACTS | {"code": "4KTM-9XWD-PQ2F"})) == ["/code"]
    earlier, later = code, new_opening_code()
    assert pointers(client.post(OPENING, FACTS | {"code": earlier})) == ["/code"], "each start makes a new one"
    assert not Shop.objects.exists() and not User.objects.exists()
    assert client.post(OPENING, FACTS | {"code": later}).status_code == 201


def test_without_a_code_nothing_opens(db: None, client: CheckedClient) -> None:
    assert pointers(client.post(OPENING, FACTS | {"code": "-"})) == ["/code"]


def test_the_code_itself_is_not_kept(code: str) -> None:
    assert code.replace("-", "") not in str(OpeningCode.objects.values()[0])


def _opened(code: str) -> None:
    open_workshop(
        code=code,
        facts={"name": "Copper Fell", "currency": "EUR", "zone": "Europe/Vienna"},
        manager={"name": "Maude Calder", "email": "maude@copperfell.example", "password": "wet slate quarry"},
        preset="plain",
        day=date(2026, 11, 28),
    )


def test_of_a_wrong_code_the_service_opens_nothing(code: str) -> None:
    with pytest.raises(RequestError, match="invalid"):
        _opened("4KTM-9XWD-PQ2F")
    assert not Shop.objects.exists()


def test_the_service_looks_for_a_shop_again(cast: Cast) -> None:
    code = "4KTM-9XWD-PQ2F"
    OpeningCode.objects.create(digest=_digest(code))  # as if the shop had come after the view looked
    with pytest.raises(RequestError, match="shop-exists"):
        _opened(code)


def test_guessing_the_code_ends_after_a_few_tries(code: str, client: CheckedClient) -> None:
    answers = [client.post(OPENING, FACTS | {"code": "no"}).status_code for _ in range(settings.SIGN_IN_TRIES)]
    assert set(answers) == {400}
    assert client.post(OPENING, FACTS | {"code": code}).status_code == 429


def test_a_refused_field_is_no_guess(code: str, client: CheckedClient) -> None:
    for _ in range(settings.SIGN_IN_TRIES + 1):
        assert pointers(client.post(OPENING, FACTS | {"code": code, "password_again": "x"})) == ["/password_again"]
    assert client.post(OPENING, FACTS | {"code": code}).status_code == 201


@pytest.mark.parametrize(
    ("wrong", "pointer"),
    [
        ({"name": ""}, "/name"),
        ({"currency": "EU"}, "/currency"),
        ({"currency": "QQQ"}, "/currency"),
        ({"zone": "Vienna"}, "/zone"),
        ({"language": "English"}, "/language"),
        ({"email": "desk"}, "/email"),
        ({"manager_email": "maude"}, "/manager_email"),
        ({"password": "short", "password_again": "short"}, "/password"),
        ({"password": "fell fitting 1", "password_again": "fell fitting 1"}, "/password"),
        ({"preset": "none"}, "/preset"),
    ],
)
def test_it_names_the_field(code: str, client: CheckedClient, wrong: dict[str, str], pointer: str) -> None:
    assert set(pointers(client.post(OPENING, FACTS | {"code": code} | wrong))) == {pointer}
    assert not Shop.objects.exists() and not User.objects.exists()


def test_opening_needs_the_csrf_token(code: str) -> None:
    client = CheckedClient(enforce_csrf_checks=True)
    assert client.post(OPENING, FACTS | {"code": code}).status_code == 403
    client.get(SESSION)
    token = client.cookies["csrftoken"].value
    assert client.post(OPENING, FACTS | {"code": code}, headers={"X-CSRFToken": token}).status_code == 201


def test_the_command_opens_a_shop_too_and_ends_the_code(code: str, client: CheckedClient) -> None:
    call_command("shop", "copperfell", name="Copper Fell", currency="EUR", zone="Europe/Vienna", stdout=StringIO())
    assert not OpeningCode.objects.exists()
    assert client.post(OPENING, FACTS | {"code": code}).status_code == 409


@pytest.mark.django_db(transaction=True)
def test_of_several_at_once_one_opens_the_shop() -> None:
    code = new_opening_code()
    bodies = [FACTS | {"code": code, "name": f"Shop {n}", "manager_email": f"{n}@copperfell.example"} for n in "abc"]
    acts = [partial(CheckedClient().post, OPENING, body) for body in bodies]
    answers = at_once(*acts)
    assert [Shop.objects.count(), User.objects.count(), RuleSet.objects.count()] == [1, 1, 1]
    assert sorted(answer.status_code for answer in answers)[0] == 201
    assert {answer.status_code for answer in answers} <= {201, 409, 400, 503}


def test_a_later_shop_leaves_the_first_alone(cast: Cast) -> None:
    _, new = open_shop(slug="third", name="Third", currency="EUR", zone="Europe/Vienna")
    assert new


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Copper Fell Fitting", "copper-fell-fitting"),
        ("Mill_Lane & Sons", "mill-lane-sons"),
        ("API", "api-workshop"),
        ("工房", "our-workshop"),
        ("x" * 90, "x" * 40),
    ],
)
def test_the_address_is_made_from_the_name(name: str, slug: str) -> None:
    assert slug_of(name) == slug


@pytest.mark.parametrize("name", PRESETS)
def test_every_preset_can_be_used_and_has_words_and_only_example_figures(db: None, name: str) -> None:
    assert refusal(PRESETS[name]) is None
    titles = {preset["name"]: preset for preset in CheckedClient().get(OPENING).json()["presets"]}
    assert titles[name]["title"] and titles[name]["words"].endswith(".")
    assert not has_own_rates(PRESETS[name])
    assert has_own_rates(PRESETS[name] | {"labour_rates": {"workshop": "99"}})
    assert [tax["rate"] for tax in PRESETS[name]["taxes"]] == ["0"], "no rate of tax is ours to say"
