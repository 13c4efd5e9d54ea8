"""People come, change their password, sign out everywhere and leave."""

import io
from typing import Any

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command

from shop.models import History, Member, PersonSession
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

pytestmark = pytest.mark.once

SESSION = "/api/v1/session"
CHANGE = "/api/v1/session/password"
NEW = "a longer kettle of bolts"


def member(*args: str) -> str:
    out = io.StringIO()
    call_command("member", *args, "--shop", "saltmarsh", stdout=out)
    return out.getvalue()


def sign_in(role: str, password: str = PASSWORD) -> tuple[CheckedClient, int]:
    client = CheckedClient()
    status = client.post(SESSION, {"email": f"{role}@saltmarsh.example", "password": password}).status_code
    return client, status


def verbs(member: Member) -> list[str]:
    return list(History.objects.filter(subject_id=member.pk).order_by("recorded_at").values_list("verb", flat=True))


def test_a_leaver_is_out_at_once_on_every_device(cast: Cast) -> None:
    phone, tablet = cast.signed_in("technician"), cast.signed_in("technician")
    other = cast.signed_in("parts")
    assert "removed" in member("Technician@saltmarsh.example", "--remove")
    assert [client.get("jobs").status_code for client in (phone, tablet, other)] == [401, 401, 200]
    back, status = sign_in("technician")
    assert (status, back.get("jobs").status_code, back.get(SESSION).json()["shops"]) == (200, 404, [])
    assert verbs(cast.technician) == ["removed"]


def test_a_manager_takes_the_people_out_as_a_list(cast: Cast) -> None:
    assert cast.signed_in("advisor").get("lists", {"kind": "people", "format": "csv"}).status_code == 403
    text = cast.signed_in("manager").get("lists", {"kind": "people", "format": "csv"}).content.decode("utf-8-sig")
    head, *rows = [line.split(",") for line in text.splitlines()]
    assert head == ["name", "e-mail", "role", "member since", "last signed in"]
    assert sorted(row[2] for row in rows) == ["advisor", "manager", "parts", "technician"]
    assert {row[1] for row in rows} == {f"{row[2]}@saltmarsh.example" for row in rows}


def test_a_leaver_who_is_added_again_is_the_same_member(cast: Cast) -> None:
    member("technician@saltmarsh.example", "--remove")
    member("technician@saltmarsh.example", "--name", "Technician", "--role", "parts")
    cast.technician.refresh_from_db()
    assert (cast.technician.active, cast.technician.role) == (True, "parts")
    assert verbs(cast.technician) == ["removed", "changed"]
    assert sign_in("technician")[0].get("jobs").status_code == 200


def test_the_last_manager_is_kept_by_the_command_too(cast: Cast) -> None:
    email = cast.manager.user.email
    for change in (["--remove"], ["--name", "Manager", "--role", "parts"]):
        with pytest.raises(CommandError, match="This is the only manager"):
            member(email, *change)
    cast.manager.refresh_from_db()
    assert (cast.manager.active, cast.manager.role) == (True, "manager") and verbs(cast.manager) == []
    member("advisor@saltmarsh.example", "--name", "Advisor", "--role", "manager")
    assert "removed" in member(email, "--remove")


def test_who_is_not_there_cannot_be_removed(cast: Cast) -> None:
    for email in ("nobody@saltmarsh.example", cast.stranger.user.email):
        with pytest.raises(CommandError, match="is not a member of"):
            member(email, "--remove")
    cast.stranger.refresh_from_db()
    assert cast.stranger.active


def test_adding_needs_a_name_and_a_role(cast: Cast) -> None:
    with pytest.raises(CommandError, match="--name and --role"):
        member("ines@saltmarsh.example")


def test_a_person_changes_the_password_and_stays_signed_in_here_only(cast: Cast) -> None:
    here, elsewhere = cast.signed_in("advisor"), cast.signed_in("advisor")
    body = {"current_password": PASSWORD, "new_password": NEW}
    assert here.put(CHANGE, body).status_code == 204
    assert PersonSession.objects.count() == 1  # before the other device asks, which would end it as well
    assert here.get("customers").status_code == 200
    assert elsewhere.get("customers").status_code == 401
    assert [sign_in("advisor", password)[1] for password in (PASSWORD, NEW)] == [401, 200]
    assert verbs(cast.advisor) == ["password changed"]


def test_it_asks_for_the_password_of_now_and_counts_the_tries(cast: Cast, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    client, body = cast.signed_in("advisor"), {"current_password": "guess", "new_password": NEW}
    answers = [client.put(CHANGE, body) for _ in range(3)]
    assert [answer.status_code for answer in answers] == [400, 400, 429]
    assert answers[0].json()["errors"][0]["pointer"] == "/current_password"
    assert sign_in("advisor")[1] == 429


def test_a_poll_sent_before_the_new_password_leaves_the_new_cookie(cast: Cast) -> None:
    client, late = cast.signed_in("advisor"), CheckedClient()
    cookie = settings.SESSION_COOKIE_NAME
    late.cookies[cookie] = client.cookies[cookie].value
    assert client.put(CHANGE, {"current_password": PASSWORD, "new_password": NEW}).status_code == 204
    refused = late.get("changes")
    assert (refused.status_code, cookie in refused.cookies) == (401, False)
    assert client.get("changes").status_code == 200
    assert client.delete(SESSION).cookies[cookie].value == ""


def test_nobody_signed_out_changes_a_password(cast: Cast, client: CheckedClient) -> None:
    assert client.put(CHANGE, {"current_password": PASSWORD, "new_password": NEW}).status_code == 401
    assert client.delete("/api/v1/sessions").status_code == 401


REFUSED = {
    "too simple": [" " * 12, "a" * 12, "abab abab abab", "            x"],
    "your own name, your e-mail": [
        "advisor@saltmarsh.example",
        "ADVISOR@SALTMARSH",
        "saltmarsh.example!",
        "advisor    12",
        "SaltmarshAdvisor1",
        "Motor Works 12",
    ],
    "at most 256 characters": ["many bolts " * 24],
    "too short": ["nine bolt"],
    "too common": ["password1234"],
}


@pytest.mark.parametrize(
    ("why", "password"), [(why, password) for why, passwords in REFUSED.items() for password in passwords]
)
def test_a_password_is_refused_in_words(cast: Cast, why: str, password: str) -> None:
    client = cast.signed_in("advisor")
    answer = client.put(CHANGE, {"current_password": PASSWORD, "new_password": password})
    assert answer.status_code == 400
    errors = answer.json()["errors"]
    assert {error["pointer"] for error in errors} == {"/new_password"}
    assert any(why in error["detail"] for error in errors), errors
    assert sign_in("advisor")[1] == 200


def test_a_name_in_a_longer_password_is_no_fault(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    body = {"current_password": PASSWORD, "new_password": "the advisor counts washers"}
    assert client.put(CHANGE, body).status_code == 204


def test_signing_out_everywhere_ends_every_sign_in_of_that_person(cast: Cast) -> None:
    here, elsewhere, other = cast.signed_in("advisor"), cast.signed_in("advisor"), cast.signed_in("manager")
    assert here.delete("/api/v1/sessions").status_code == 204
    assert [client.get("customers").status_code for client in (here, elsewhere, other)] == [401, 401, 200]
    assert here.get(SESSION).json()["signed_in"] is False


SESSIONS = "/api/v1/sessions"
PHONE = "Mozilla/5.0 (Linux) AppleWebKit (KHTML) Mobile Safari"


def test_a_person_sees_where_they_are_signed_in_and_no_key_of_it(cast: Cast) -> None:
    phone = CheckedClient(headers={"User-Agent": PHONE})
    phone.post(SESSION, {"email": "advisor@saltmarsh.example", "password": PASSWORD})
    bench, other = sign_in("advisor")[0], cast.signed_in("advisor")
    cast.signed_in("manager")
    answer = phone.get(SESSIONS)
    assert [(item["here"], item["device"]) for item in answer.json()["items"]] == [
        (False, "unknown"),
        (False, "unknown"),
        (True, "phone"),
    ]
    assert answer["Cache-Control"] == "no-store"
    keys = PersonSession.objects.values_list("pk", flat=True)
    assert not [key for key in keys if key in answer.content.decode()]
    assert [client.get(SESSIONS).status_code for client in (bench, other)] == [200, 200]


def test_a_person_ends_one_sign_in_and_no_other(cast: Cast) -> None:
    here, lost, manager = cast.signed_in("advisor"), cast.signed_in("advisor"), cast.signed_in("manager")
    (own,) = [item["id"] for item in lost.get(SESSIONS).json()["items"] if item["here"]]
    assert manager.delete(f"{SESSIONS}/{own}").status_code == 404
    assert here.delete(f"{SESSIONS}/{own}").status_code == 204
    assert [client.get("customers").status_code for client in (here, lost, manager)] == [200, 401, 200]
    assert here.delete(f"{SESSIONS}/{own}").status_code == 404
    (last,) = here.get(SESSIONS).json()["items"]
    assert here.delete(f"{SESSIONS}/{last['id']}").status_code == 204
    assert here.get(SESSION).json()["signed_in"] is False


def test_a_sign_in_past_its_limit_is_not_listed(cast: Cast, later: Any) -> None:
    cast.signed_in("advisor")
    later(hours=13)
    fresh = cast.signed_in("advisor")
    assert [item["here"] for item in fresh.get(SESSIONS).json()["items"]] == [True]


def test_a_password_set_by_command_ends_the_sign_ins_of_before(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    client = cast.signed_in("advisor")
    monkeypatch.setattr("sys.stdin", io.StringIO(NEW + "\n"))
    member("advisor@saltmarsh.example", "--password-stdin")
    assert PersonSession.objects.count() == 0  # before anybody asks, which would end it as well
    assert client.get("customers").status_code == 401
    assert verbs(cast.advisor) == []
