"""The roles of every endpoint, each of which refuses strangers of another shop and signed-out people."""

import re
import uuid

import pytest

from shop import access
from shop.api.endpoint import Endpoint
from tests.api.endpoints import OUTSIDE as endpoints_outside
from tests.api.endpoints import VIEWS, endpoints
from tests.cast import Cast
from tests.client import CheckedClient, document

pytestmark = pytest.mark.once

IDS = re.compile(r"\{\w+\}")


def address(path: str, slug: str) -> str:
    filled = path.replace("{slug}", slug).replace("{key}", "labour:NONE")
    return IDS.sub(str(uuid.uuid4()), filled)


def ask(client: CheckedClient, method: str, path: str) -> int:
    call = getattr(client, method)
    return call(path, seen='"1"').status_code if method in ("patch", "put", "delete") else call(path).status_code


def test_the_document_names_every_endpoint() -> None:
    assert {path for path, _ in endpoints()} == {path for path in document()["paths"] if "{slug}" in path}
    assert set(VIEWS) == {path for path, _ in endpoints()}


@pytest.mark.parametrize(("path", "method"), endpoints())
def test_it_is_nothing_to_a_stranger_and_closed_to_the_signed_out(cast: Cast, path: str, method: str) -> None:
    where = address(path, cast.shop.slug)
    stranger = CheckedClient()
    stranger.force_login(cast.stranger.user)
    assert ask(stranger, method, where) == 404
    assert ask(CheckedClient(), method, where) == 401


ALL, COUNTER, FLOOR = "advisor parts technician manager", "advisor manager", "advisor technician manager"
STORES, RECOUNTS = "advisor parts manager", "parts manager"

# Which roles may use which method, written by hand from what each place in the workshop is for and never read from the
# code: an endpoint that is missing here, or that lets in one role more, fails.
ROLES = {
    "changes": {"get": ALL},
    "counter": {"get": COUNTER},
    "customers": {"get": COUNTER, "post": COUNTER},
    "customers/{id}": {"get": COUNTER, "patch": COUNTER},
    "find": {"get": ALL},
    "lists": {"get": COUNTER},
    "lists/examples": {"get": STORES},
    "lists/headings": {"get": STORES},
    "imports": {"get": STORES, "post": STORES},
    "imports/{id}": {"get": STORES, "delete": STORES},
    "imports/{id}/lines": {"get": STORES},
    "imports/{id}/original": {"get": STORES},
    "imports/{id}/steps": {"post": STORES},
    "imports/{id}/steps/{step}": {"delete": STORES},
    "imports/{id}/take-in": {"post": STORES},
    "jobs": {"get": ALL},
    "jobs/{id}": {"get": ALL, "patch": STORES},
    "jobs/{id}/account": {"get": COUNTER},
    "jobs/{id}/closing-account": {"post": COUNTER},
    "jobs/{id}/closing-account/paper": {"get": COUNTER},
    "jobs/{id}/core-returns": {"post": COUNTER},
    "jobs/{id}/core-returns/{core}/reversal": {"post": COUNTER},
    "jobs/{id}/releases": {"get": STORES, "post": STORES},
    "jobs/{id}/releases/{release}/ubl": {"get": STORES},
    "jobs/{id}/told-dates": {"get": COUNTER, "post": COUNTER},
    "money": {"get": COUNTER},
    "jobs/{id}/payments": {"post": COUNTER},
    "jobs/{id}/payments/{payment}/reversal": {"post": COUNTER},
    "jobs/{id}/occurrences": {"get": ALL, "post": FLOOR},
    "jobs/{id}/occurrences/{occurrence}/reversal": {"post": FLOOR},
    "jobs/{id}/occurrences/{occurrence}/photographs": {"post": FLOOR},
    "jobs/{id}/photographs/{photograph}": {"get": ALL},
    "jobs/{id}/photographs/{photograph}/shown": {"post": COUNTER},
    "jobs/{id}/call-off": {"get": COUNTER, "post": COUNTER},
    "jobs/{id}/changes": {"get": COUNTER, "post": COUNTER},
    "jobs/{id}/circuits": {"get": ALL},
    "jobs/{id}/extra-work": {"get": ALL},
    "jobs/{id}/hand-over": {"post": COUNTER},
    "jobs/{id}/hand-over/undo": {"post": COUNTER},
    "jobs/{id}/in-bay": {"post": FLOOR},
    "jobs/{id}/in-bay/undo": {"post": FLOOR},
    "jobs/{id}/steps/{step}/done": {"post": FLOOR},
    "jobs/{id}/steps/{step}/hours": {"post": COUNTER},
    "jobs/{id}/steps/{step}/done/undo": {"post": FLOOR},
    "jobs/{id}/outside": {"get": ALL, "post": STORES},
    "jobs/{id}/readiness": {"get": ALL},
    "kits": {"get": ALL, "post": COUNTER},
    "kits/{id}": {"get": ALL, "put": COUNTER, "patch": "manager"},
    "kits/{id}/cost": {"get": COUNTER, "put": "manager"},
    "kits/{id}/changes": {"get": STORES},
    "kits/{id}/duplicates": {"post": COUNTER},
    "kits/{id}/contents": {"get": COUNTER},
    "kits/{id}/first-counts": {"get": STORES, "post": STORES},
    "kits/{id}/price-range": {"get": COUNTER},
    "pull-lists": {"get": ALL},
    "pull-lists/{id}": {"get": ALL},
    "pull-lists/{id}/close": {"post": STORES},
    "pull-lists/{id}/due": {"post": STORES},
    "pull-lists/{id}/events": {"get": ALL, "post": ALL},
    "pull-lists/{id}/orders": {"get": ALL},
    "pull-lists/{id}/orders/file": {"get": ALL},
    "pull-lists/{id}/paper": {"get": ALL},
    "pull-lists/{id}/file": {"get": ALL},
    "pull-lists/{id}/reopen": {"post": RECOUNTS},
    "pull-lists/{id}/report": {"get": ALL},
    "quotes": {"get": COUNTER, "post": COUNTER},
    "quotes/{id}": {"get": COUNTER, "patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/as-customer": {"get": COUNTER},
    "quotes/{id}/how": {"get": COUNTER},
    "quotes/{id}/lines": {"post": COUNTER},
    "quotes/{id}/lines/{line}": {"patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/lines/{line}/photographs": {"post": COUNTER},
    "quotes/{id}/photographs/{photograph}": {"patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/photographs/{photograph}/picture": {"get": COUNTER},
    "quotes/{id}/links": {"post": COUNTER},
    "quotes/{id}/links/{link}": {"delete": COUNTER},
    "quotes/{id}/mails": {"get": COUNTER, "post": COUNTER},
    "quotes/{id}/mails/{mail}/decision": {"post": COUNTER},
    "quotes/{id}/margin": {"get": COUNTER},
    "quotes/{id}/newer-rules": {"get": COUNTER},
    "quotes/{id}/questions/{question}/reply": {"post": COUNTER},
    "quotes/{id}/restore": {"post": COUNTER},
    "quotes/{id}/discount": {"put": COUNTER, "delete": COUNTER},
    "opening-hours": {"get": "manager", "put": "manager"},
    "holidays": {"get": "manager", "post": "manager"},
    "exchange-rates": {"get": "manager", "post": "manager"},
    "opening-hours/{id}": {"delete": "manager"},
    "closed-days": {"post": "manager"},
    "closed-days/{id}": {"delete": "manager"},
    "start": {"get": "manager"},
    "start/{step}": {"put": "manager"},
    "outside-work": {"get": COUNTER},
    "owed": {"get": ALL},
    "quotes/{id}/choices": {"post": COUNTER},
    "quotes/{id}/choices/{choice}": {"patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/choices/{choice}/options": {"post": COUNTER},
    "quotes/{id}/options/{option}": {"patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/contingencies": {"post": COUNTER},
    "quotes/{id}/contingencies/{line}": {"patch": COUNTER, "delete": COUNTER},
    "quotes/{id}/kits-outside": {"get": COUNTER},
    "quotes/{id}/outside": {"post": COUNTER},
    "quotes/{id}/outside/{line}": {"get": COUNTER, "put": COUNTER},
    "quotes/{id}/charges/{item}": {"put": COUNTER},
    "quotes/{id}/overrides/{key}": {"put": COUNTER, "delete": COUNTER},
    "quotes/{id}/paper": {"get": COUNTER},
    "quotes/{id}/ubl": {"get": COUNTER},
    "quotes/{id}/receipt": {"get": COUNTER},
    "quotes/{id}/difference": {"get": COUNTER},
    "quotes/{id}/part-list": {"post": COUNTER},
    "quotes/{id}/part-list/reading": {"post": COUNTER},
    "quotes/{id}/follow-ups": {"post": COUNTER},
    "quotes/{id}/copy": {"post": COUNTER},
    "quotes/{id}/undo": {"post": COUNTER},
    "quotes/{id}/redo": {"post": COUNTER},
    "quotes/{id}/revise": {"post": COUNTER},
    "quotes/{id}/send": {"post": COUNTER},
    "quotes/{id}/spoken-answer": {"get": COUNTER, "post": COUNTER},
    "quotes/{id}/taken-off": {"put": COUNTER},
    "quotes/{id}/without-asking": {"post": COUNTER},
    "quotes/{id}/withdraw": {"post": COUNTER},
    "consumables": {"get": COUNTER, "post": "manager"},
    "consumables/{id}": {"get": COUNTER, "put": "manager", "patch": "manager"},
    "consumables/{id}/offers": {"get": COUNTER},
    "consumables/{id}/packs": {"post": "manager"},
    "consumables/{id}/packs/{pack}": {"put": "manager", "patch": "manager"},
    "templates": {"get": COUNTER, "post": "manager"},
    "templates/{id}": {"get": COUNTER, "patch": "manager"},
    "templates/{id}/versions": {"post": "manager"},
    "operations": {"get": COUNTER, "post": "manager"},
    "operations/{id}": {"get": COUNTER, "put": "manager", "patch": "manager"},
    "people": {"get": "manager"},
    "people/invitations": {"post": "manager"},
    "people/invitations/{invitation}": {"delete": "manager"},
    "people/second-factor": {"put": "manager"},
    "people/{id}/second-factor": {"delete": "manager"},
    "people/{id}": {"patch": "manager", "delete": "manager"},
    "people/{id}/password-link": {"post": "manager"},
    "people/{id}/sign-ins": {"get": "manager", "delete": "manager"},
    "people/{id}/pins": {"get": "manager"},
    "people/{id}/pins/{pin}": {"delete": "manager"},
    "people/{id}/sign-ins/{sign_in}": {"delete": "manager"},
    "rules": {"get": "manager", "post": "manager"},
    "customers/{id}/merge": {"get": COUNTER, "post": COUNTER},
    "own-data": {"get": "manager", "put": "manager"},
    "exchange-rates/example": {"post": "manager"},
    "rules/example": {"post": "manager"},
    "opening-hours/example": {"post": "manager"},
    "closed-days/example": {"post": "manager"},
    "holidays/example": {"post": "manager"},
    "rules/in-force": {"get": "manager"},
    "rules/{id}": {"get": "manager"},
    "replaced-numbers": {"get": STORES, "post": "manager"},
    "replaced-numbers/{id}": {"get": STORES, "delete": "manager"},
    "suppliers": {"get": STORES, "post": "manager"},
    "suppliers/{id}": {"get": STORES, "patch": "manager"},
    "suppliers/{id}/memories/{memory}": {"delete": "manager"},
    "suppliers/{id}/shipments": {"post": "manager"},
    "suppliers/{id}/shipments/reading": {"post": "manager"},
    "calendar-feeds": {"get": "manager", "post": "manager"},
    "calendar-feeds/{id}": {"delete": "manager"},
    "tokens": {"get": "manager", "post": "manager"},
    "tokens/{id}": {"delete": "manager"},
    "webhooks": {"get": "manager", "post": "manager"},
    "webhooks/{id}": {"delete": "manager"},
    "webhooks/{id}/address": {"post": "manager"},
    "webhooks/{id}/state": {"put": "manager"},
    "webhooks/{id}/secret": {"post": "manager"},
    "webhooks/{id}/trial": {"post": "manager"},
    "webhooks/{id}/messages": {"get": "manager"},
    "webhooks/{id}/messages/{message}/again": {"post": "manager"},
    "vehicles": {"get": ALL, "post": COUNTER},
    "vehicles/vin": {"get": COUNTER},
    "vehicles/{id}/owners": {"get": COUNTER, "post": COUNTER},
    "vehicles/{id}": {"get": ALL, "patch": COUNTER},
}
IN_A_SHOP = "/api/v1/shops/{slug}/"

# Outside a shop nobody has a role: whether one has to be signed in.
OUTSIDE = {
    ("/api/v1/entry", "post"): False,
    ("/api/v1/entry/reading", "post"): False,
    ("/api/v1/forgotten", "post"): False,
    ("/api/v1/opening", "get"): False,
    ("/api/v1/opening", "post"): False,
    ("/api/v1/pins", "get"): True,
    ("/api/v1/pins", "post"): True,
    ("/api/v1/pins/{id}", "delete"): True,
    ("/api/v1/second-factor", "get"): True,
    ("/api/v1/second-factor", "post"): True,
    ("/api/v1/second-factor/confirmation", "post"): True,
    ("/api/v1/second-factor/off", "post"): True,
    ("/api/v1/session", "get"): False,
    ("/api/v1/session", "post"): False,
    ("/api/v1/session", "delete"): False,
    ("/api/v1/session/password", "put"): True,
    ("/api/v1/session/pin", "post"): False,
    ("/api/v1/sessions", "get"): True,
    ("/api/v1/sessions", "delete"): True,
    ("/api/v1/sessions/{id}", "delete"): True,
}


def test_the_table_names_every_method_of_every_endpoint() -> None:
    table = {(IN_A_SHOP + path, method) for path, methods in ROLES.items() for method in methods}
    assert table == set(endpoints())
    assert set(OUTSIDE) == set(endpoints(endpoints_outside))


@pytest.mark.parametrize(("path", "method"), OUTSIDE)
def test_outside_a_shop_it_asks_for_a_sign_in_or_not(cast: Cast, path: str, method: str) -> None:
    assert (ask(CheckedClient(), method, address(path, "")) == 401) == OUTSIDE[path, method]


@pytest.mark.parametrize(("path", "method"), [(path, method) for path, methods in ROLES.items() for method in methods])
def test_each_role_may_do_just_its_own(cast: Cast, path: str, method: str) -> None:
    where = address(IN_A_SHOP + path, cast.shop.slug)
    answers = {role: ask(cast.signed_in(role), method, where) for role in ALL.split()}
    assert [role for role, status in answers.items() if status != 403] == ROLES[path][method].split(), answers


def test_a_method_without_its_roles_does_not_start() -> None:
    for allows in ({}, {"get": access.EVERYONE}, {"get": access.EVERYONE, "post": frozenset()}):
        with pytest.raises(TypeError, match="Forgetful"):
            type("Forgetful", (Endpoint,), {"get": ask, "post": ask, "permissions": allows})
    type(
        "Careful", (Endpoint,), {"get": ask, "post": ask, "permissions": {"get": access.OFFICE, "post": access.OFFICE}}
    )


def test_a_role_that_nobody_has_does_not_start() -> None:
    for in_a_shop, roles in ((True, access.ANYONE), (False, access.OFFICE), (True, frozenset({"mechanic"}))):
        with pytest.raises(TypeError, match="Odd"):
            type("Odd", (Endpoint,), {"get": ask, "permissions": {"get": roles}, "in_a_shop": in_a_shop})


@pytest.mark.parametrize("method", ["put", "patch", "delete", "options"])
def test_a_method_that_an_endpoint_has_not_is_405(cast: Cast, method: str) -> None:
    client = cast.signed_in("advisor")
    assert getattr(client, method)(client.url("customers?and=a-query")).status_code == 405


def test_a_deactivated_member_is_a_stranger(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    cast.advisor.active = False
    cast.advisor.save()
    assert client.get("customers").status_code == client.get("changes").status_code == 404
