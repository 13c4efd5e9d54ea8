"""Other programs come in by a token: within its areas, with its member's role, until it ends."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from shop.api import rates
from shop.models import ApiToken, CalendarFeed, EntryLink, History, Member, User, Webhook
from shop.models.api_tokens import TokenArea
from shop.queries.calendar import shop_day
from shop.services.api_tokens import make_token
from shop.services.people import set_member
from tests.api.test_permissions import IN_A_SHOP, OUTSIDE, ROLES, address, ask
from tests.api.test_pins import come_in, set_pin
from tests.cast import Cast, make_member
from tests.client import CheckedClient
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

ALL = tuple(TokenArea.values)

# The collections of each area, written by hand: all others are closed to every token.
COLLECTIONS = {
    "quotes": {"counter", "customers", "outside-work", "quotes", "vehicles"},
    "jobs": {"jobs", "money", "owed"},
    "parts": {"pull-lists"},
    "stock": {"consumables", "kits", "operations", "replaced-numbers", "suppliers", "templates"},
}


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


@pytest.fixture(autouse=True)
def fresh_rates() -> None:
    rates.forget_rates()


def area_of(path: str) -> str | None:
    collection = path.split("/")[0]
    return next((area for area, collections in COLLECTIONS.items() if collection in collections), None)


def paths_of(collection: str) -> list[tuple[str, str]]:
    pairs = [(path, method) for path, methods in ROLES.items() for method in methods]
    return [(path, method) for path, method in pairs if path.split("/")[0] == collection]


def within(cast: Cast, path: str) -> str:
    return address(IN_A_SHOP + path, cast.shop.slug)


def secret_for(
    cast: Cast,
    role: str = "manager",
    areas: tuple[str, ...] = ALL,
    *,
    may_write: bool = False,
    member: Member | None = None,
    now: datetime | None = None,
    days: int = 30,
) -> str:
    now = now or timezone.now()
    return make_token(
        actor=cast.acting("manager"),
        member=member or getattr(cast, role),
        title="Bookkeeping",
        areas=areas,
        may_write=may_write,
        expires_on=shop_day(cast.shop, now) + timedelta(days=days),
        now=now,
    )[1]


def program(secret: str, **kw: Any) -> CheckedClient:
    client = CheckedClient(**kw)
    client.credentials(HTTP_AUTHORIZATION=f"Bearer {secret}")
    return client


def refusal(answer: Any) -> str:
    return str(answer.json()["type"].removeprefix("/problems/")) if answer.status_code >= 400 else ""


def refused(client: CheckedClient, method: str, path: str) -> str:
    call = getattr(client, method)
    return refusal(call(path, seen='"1"') if method in ("patch", "put", "delete") else call(path))


REACH = {"closed-to-tokens", "outside-token", "token-reads-only", "token-closed", "sign-in-first"}


@pytest.mark.parametrize("collection", sorted({path.split("/")[0] for path in ROLES}))
def test_a_token_opens_the_addresses_of_its_areas_and_no_others(cast: Cast, collection: str) -> None:
    area = area_of(collection)
    if area is None:
        every = program(secret_for(cast, may_write=True))
        for path, method in paths_of(collection):
            assert refused(every, method, within(cast, path)) == "closed-to-tokens", (method, path)
        return
    reads, writes = (program(secret_for(cast, areas=(area,), may_write=may_write)) for may_write in (False, True))
    others = program(secret_for(cast, areas=tuple(other for other in ALL if other != area), may_write=True))
    for path, method in paths_of(collection):
        where = within(cast, path)
        assert refused(reads if method == "get" else writes, method, where) not in REACH, (method, path)
        assert refused(others, method, where) == "outside-token", (method, path)
        assert method == "get" or refused(reads, method, where) == "token-reads-only", (method, path)


@pytest.mark.parametrize("collection", sorted(set().union(*COLLECTIONS.values())))
def test_a_token_has_the_role_of_its_member(cast: Cast, collection: str) -> None:
    technician = program(secret_for(cast, "technician", may_write=True))
    for path, method in paths_of(collection):
        allowed = "technician" in ROLES[path][method].split()
        assert (ask(technician, method, within(cast, path)) != 403) == allowed, (method, path)


def test_sign_ins_passwords_and_pins_are_closed_to_tokens(cast: Cast) -> None:
    every = program(secret_for(cast, may_write=True))
    assert len(OUTSIDE) > 10
    for path, method in OUTSIDE:
        assert refused(every, method, address(path, "")) == "closed-to-tokens", (method, path)


def test_a_manager_makes_a_token_that_is_told_once(cast: Cast) -> None:
    manager = cast.signed_in("manager")
    body = {
        "title": "Bookkeeping",
        "member": str(cast.advisor.pk),
        "areas": ["quotes", "jobs", "quotes"],
        "expires_on": str(shop_day(cast.shop, timezone.now()) + timedelta(days=90)),
    }
    key = "0198f3a2-0000-7000-8000-000000000001"
    answer = manager.post("tokens", body, key=key)
    assert answer.status_code == 201, answer.content
    secret = answer.json()["secret"]
    assert secret.startswith("kwt_") and len(secret) >= 43
    again = manager.post("tokens", body, key=key)
    assert (again.status_code, again.json()["secret"], again.json()["token"]) == (201, None, answer.json()["token"])
    (row,) = ApiToken.objects.all()
    assert secret not in str([*ApiToken.objects.values(), *History.objects.values()]) and len(row.token_hash) == 64
    (listed,) = manager.get("tokens").json()["items"]
    facts = ("title", "person", "role", "areas", "may_write", "by", "expired", "used_at")
    assert [listed[name] for name in facts] == [
        *("Bookkeeping", "Advisor", "advisor", ["jobs", "quotes"]),
        *(False, "Manager", False, None),
    ]
    assert program(secret).get("quotes").status_code == 200


@pytest.mark.parametrize("days", [-1, 367])
def test_a_last_day_lies_within_a_year(cast: Cast, days: int) -> None:
    body = {"title": "x", "member": str(cast.advisor.pk), "areas": ["quotes"]}
    day = str(shop_day(cast.shop, timezone.now()) + timedelta(days=days))
    answer = cast.signed_in("manager").post("tokens", body | {"expires_on": day})
    assert answer.json()["errors"][0]["pointer"] == "/expires_on" and not ApiToken.objects.exists()


def test_a_token_for_nobody_of_the_shop_or_for_nothing_is_refused(cast: Cast) -> None:
    body = {"title": "x", "areas": ["quotes"], "expires_on": str(date.today() + timedelta(days=9))}
    manager = cast.signed_in("manager")
    assert manager.post("tokens", body | {"member": str(cast.stranger.pk)}).status_code == 404
    own = body | {"member": str(cast.advisor.pk)}
    for change in ({"areas": []}, {"areas": ["people"]}, {"title": " "}, {"expires_on": "soon"}):
        assert manager.post("tokens", own | change).status_code == 400, change


def test_a_manager_who_came_in_by_a_pin_makes_nothing_that_outlasts_it(cast: Cast) -> None:
    manager = cast.signed_in("manager")
    body = {"title": "x", "member": str(cast.advisor.pk), "areas": [], "expires_on": str(date.today())}
    assert manager.post("tokens", body).json()["errors"] == [{"pointer": "/areas", "detail": "Tick at least one."}]
    body.pop("areas")
    assert manager.post("tokens", body).json()["errors"] == [{"pointer": "/areas", "detail": "Tick at least one."}]
    come_in(manager, set_pin(manager).json()["id"])
    hook = {"title": "x", "url": "https://11.0.0.1/", "events": ["quote_sent"]}
    refusals = {
        "tokens": (body | {"areas": ["quotes"]}, "token-needs-password"),
        "webhooks": (hook, "webhook-needs-password"),
        "calendar-feeds": ({"title": "x"}, "calendar-needs-password"),
        "people/invitations": (
            {"email": "new@saltmarsh.example", "role": "parts", "by_mail": False},
            "entry-link-needs-password",
        ),
        f"people/{cast.advisor.pk}/password-link": ({"by_mail": False}, "entry-link-needs-password"),
    }
    assert {path: refusal(manager.post(path, sent)) for path, (sent, _) in refusals.items()} == {
        path: code for path, (_, code) in refusals.items()
    }
    assert [model.objects.count() for model in (ApiToken, Webhook, CalendarFeed, EntryLink)] == [0, 0, 0, 0]


def test_it_works_through_its_last_day_in_the_shops_zone(cast: Cast) -> None:
    secret_for(cast, now=datetime.fromisoformat("2026-07-01T12:00:00+00:00"), days=3)
    assert str(ApiToken.objects.get().expires_at) == "2026-07-04 22:00:00+00:00"


def test_an_expired_a_revoked_and_an_unknown_token_are_refused_alike(cast: Cast) -> None:
    old = secret_for(cast, now=timezone.now() - timedelta(days=40))
    revoked = secret_for(cast)
    row = ApiToken.objects.latest("made_at")
    manager = cast.signed_in("manager")
    assert program(revoked).get("quotes").status_code == 200
    assert [manager.delete(f"tokens/{row.pk}").status_code for _ in range(2)] == [204, 204]
    answers = [program(secret).get("quotes") for secret in (old, revoked, "kwt_guess", "")]
    assert {(answer.status_code, refusal(answer), answer["WWW-Authenticate"]) for answer in answers} == {
        (401, "token-closed", "Bearer")
    }
    assert [token["expired"] for token in manager.get("tokens").json()["items"]] == [True]
    assert History.objects.filter(verb="access key ended").count() == 1


def test_a_token_of_one_shop_is_a_stranger_in_another(cast: Cast) -> None:
    set_member(shop=cast.elsewhere, email=cast.manager.user.email, name="Manager", role="manager", password=None)
    assert cast.signed_in("manager").get("/api/v1/shops/elsewhere/quotes").status_code == 200
    assert program(secret_for(cast)).get("/api/v1/shops/elsewhere/quotes").status_code == 404


def test_another_shops_token_is_not_there(cast: Cast) -> None:
    secret_for(cast)
    stranger = CheckedClient(shop="elsewhere")
    stranger.force_login(cast.stranger.user)
    assert stranger.delete(f"tokens/{ApiToken.objects.get().pk}").status_code == 404
    assert stranger.get("tokens").json()["items"] == []


def test_no_cookie_counts_beside_a_token(cast: Cast) -> None:
    client = cast.signed_in("manager")
    assert client.get("people").status_code == 200
    client.credentials(HTTP_AUTHORIZATION="Bearer kwt_guess")
    assert client.get("quotes").status_code == 401
    client.credentials(HTTP_AUTHORIZATION=f"Bearer {secret_for(cast, 'technician')}")
    assert [client.get(path).status_code for path in ("jobs", "quotes", "people")] == [200, 403, 403]


def test_a_program_needs_no_csrf_token_and_a_browser_still_does(cast: Cast) -> None:
    secret = secret_for(cast, may_write=True)
    strict = program(secret, enforce_csrf_checks=True)
    assert strict.post("customers", {"name": "Ada Quill"}).status_code == 201
    line = History.objects.latest("recorded_at")
    assert (line.channel, line.author_id) == ("token", cast.manager.pk)
    browser = CheckedClient(enforce_csrf_checks=True)
    browser.cookies = cast.signed_in("manager").cookies
    assert browser.post("customers", {"name": "Ada Quill"}).status_code == 403


def test_a_leavers_tokens_and_those_they_made_end(cast: Cast) -> None:
    second = make_member(cast.shop, "manager", "second")
    own, of_parts, other = secret_for(cast, member=second), secret_for(cast, "parts"), secret_for(cast, "advisor")
    acting = cast.signed_in("manager")
    answers = [program(secret).get("jobs").status_code for secret in (own, of_parts, other)]
    assert answers == [200, 200, 200]
    assert acting.delete(f"people/{second.pk}").status_code == 204
    assert [program(secret).get("jobs").status_code for secret in (own, of_parts, other)] == [401, 200, 200]
    third = make_member(cast.shop, "manager", "third")
    client = CheckedClient()
    client.force_login(third.user)
    assert client.delete(f"people/{cast.manager.pk}").status_code == 204
    assert [program(secret).get("jobs").status_code for secret in (of_parts, other)] == [401, 401]


def test_another_role_ends_the_tokens_of_a_member(cast: Cast) -> None:
    secret = secret_for(cast, "parts")
    assert cast.signed_in("manager").patch(f"people/{cast.parts.pk}", {"role": "advisor"}).status_code == 200
    assert program(secret).get("jobs").status_code == 401


def test_a_closed_account_ends_its_tokens_at_once(cast: Cast) -> None:
    secret = secret_for(cast, "advisor")
    User.objects.filter(pk=cast.advisor.user.pk).update(is_active=False)
    assert program(secret).get("quotes").status_code == 401


def test_a_member_without_the_second_factor_that_is_asked_is_refused(cast: Cast) -> None:
    secret = secret_for(cast)
    cast.shop.second_factor = "all"
    cast.shop.save()
    assert refusal(program(secret).get("quotes")) == "second-factor-missing"


@pytest.mark.both
def test_its_last_use_is_noted_at_most_once_a_minute(cast: Cast) -> None:
    client = program(secret_for(cast))
    assert client.get("quotes").status_code == 200
    first = ApiToken.objects.get().used_at
    assert first is not None
    with CaptureQueriesContext(connection) as queries:
        assert client.get("quotes").status_code == 200
    assert not [query for query in queries if query["sql"].startswith("UPDATE")]
    assert ApiToken.objects.get().used_at == first
    ApiToken.objects.update(used_at=first - timedelta(seconds=61))
    assert client.get("quotes").status_code == 200
    assert ApiToken.objects.get().used_at >= first


def test_a_program_that_runs_wild_is_slowed_down(cast: Cast, settings: Any) -> None:
    settings.TOKEN_REQUESTS_A_MINUTE = 2
    client, other = program(secret_for(cast)), program(secret_for(cast, "advisor"))
    answers = [client.get("quotes") for _ in range(3)]
    assert [answer.status_code for answer in answers] == [200, 200, 429]
    assert refusal(answers[2]) == "too-many-requests" and 0 < int(answers[2]["Retry-After"]) <= 61
    assert other.get("quotes").status_code == 200


def test_wrong_tokens_of_an_address_are_slowed_down_and_the_right_one_is_not(cast: Cast, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    right = secret_for(cast)
    assert [program("kwt_guess").get("quotes").status_code for _ in range(3)] == [401, 401, 429]
    assert program(right).get("quotes").status_code == 200


def test_only_a_role_that_may_see_costs_gets_them(stage: Stage) -> None:
    quote = stage.quote().json()["id"]
    seen = program(secret_for(stage.cast, "advisor")).get(f"quotes/{quote}/margin")
    assert seen.status_code == 200
    for role in ("technician", "parts"):
        assert program(secret_for(stage.cast, role)).get(f"quotes/{quote}/margin").status_code == 403


def test_the_log_names_the_person_and_not_the_token(cast: Cast, caplog: pytest.LogCaptureFixture) -> None:
    secret = secret_for(cast, "technician")
    assert program(secret).get("quotes").status_code == 403
    assert f"person={cast.technician.user.pk}" in caplog.text and secret not in caplog.text


@pytest.mark.both
def test_the_database_keeps_a_tokens_reach_and_its_end(cast: Cast) -> None:
    secret_for(cast)
    tokens = ApiToken.objects.all()
    for change in ({"may_write": True}, {"areas": []}, {"expires_at": timezone.now() + timedelta(days=900)}):
        with pytest.raises(DatabaseError), transaction.atomic():
            tokens.update(**change)
    tokens.update(revoked_at=timezone.now())
    with pytest.raises(DatabaseError), transaction.atomic():
        tokens.update(revoked_at=None)


def test_a_token_is_looked_up_in_one_query(cast: Cast) -> None:
    client = program(secret_for(cast))
    assert client.get("quotes").status_code == 200
    with CaptureQueriesContext(connection) as queries:
        assert client.get("quotes").status_code == 200
    assert len([query for query in queries if "shop_apitoken" in query["sql"]]) == 1
