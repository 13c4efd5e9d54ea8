"""A manager invites people by link, changes roles, removes members, and ends sign-ins."""

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.hashers import MD5PasswordHasher
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from shop.models import EntryLink, History, Member, PersonSession, User
from shop.models.entry_links import INVITATION_LASTS
from shop.services.people import set_member
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

pytestmark = pytest.mark.once

SESSION, ENTRY = "/api/v1/session", "/api/v1/entry"
NEW = "wet slate quarry"
INES = "ines@saltmarsh.example"


def invited(cast: Cast, email: str = "Ines@Saltmarsh.example", role: str = "parts") -> str:
    answer = cast.signed_in("manager").post("people/invitations", {"email": email, "role": role})
    assert answer.status_code == 201, answer.content
    return secret_of(answer)


def password_link(cast: Cast, member: Member) -> str:
    answer = cast.signed_in("manager").post(f"people/{member.pk}/password-link")
    assert answer.status_code == 201, answer.content
    return secret_of(answer)


def secret_of(answer: Any) -> str:
    where, _, token = answer.json()["url"].partition("#")
    assert where == "http://testserver/sign-in"
    return str(token)


def come_in(token: str, password: str = NEW, **body: Any) -> Any:
    return CheckedClient().post(ENTRY, {"token": token, "password": password} | body)


def read(token: str) -> Any:
    return CheckedClient().post(f"{ENTRY}/reading", {"token": token})


def sign_in(email: str, password: str) -> int:
    return int(CheckedClient().post(SESSION, {"email": email, "password": password}).status_code)


def closed(answer: Any) -> bool:
    return (answer.status_code, answer.json().get("type")) == (410, "/problems/entry-link-closed")


def refused(answer: Any) -> str:
    return str(answer.json()["type"].removeprefix("/problems/"))


def pointers(answer: Any) -> list[str]:
    assert answer.status_code == 400, answer.content
    return [error["pointer"] for error in answer.json()["errors"]]


def verbs(id: Any) -> list[str]:
    return list(History.objects.filter(subject_id=id).order_by("recorded_at").values_list("verb", flat=True))


def people(cast: Cast) -> Any:
    return cast.signed_in("manager").get("people").json()


def test_an_invited_person_sets_name_and_password_and_signs_in(cast: Cast) -> None:
    token = invited(cast)
    (open_one,) = people(cast)["invitations"]
    assert (open_one["email"], open_one["role"], open_one["by"]) == (INES, "parts", "Manager")
    entry = read(token)
    assert entry["Cache-Control"] == "no-store"
    assert {name: entry.json()[name] for name in ("kind", "shop", "email", "name", "role")} == {
        "kind": "invitation",
        "shop": cast.shop.name,
        "email": INES,
        "name": "",
        "role": "parts",
    }
    assert come_in(token, name="Ines Lark").status_code == 204
    assert sign_in(INES, NEW) == 200
    member = Member.objects.get(user__email=INES)
    assert (member.role, member.user.name, verbs(member.pk)) == ("parts", "Ines Lark", ["joined"])
    now = people(cast)
    assert now["invitations"] == []
    row = next(row for row in now["members"] if row["email"] == INES)
    assert row["since"] and row["signed_in_at"] and not row["own"]


def test_a_link_works_once_and_only_in_its_time(cast: Cast) -> None:
    token = invited(cast)
    assert come_in(token, name="Ines Lark").status_code == 204
    assert closed(come_in(token, name="Another", password="another wet slate")) and closed(read(token))
    assert sign_in(INES, NEW) == 200
    late = invited(cast, "late@saltmarsh.example")
    EntryLink.objects.filter(email="late@saltmarsh.example").update(
        made_at=timezone.now() - INVITATION_LASTS, expires_at=timezone.now() - timedelta(seconds=1)
    )
    assert closed(read(late)) and closed(come_in(late, name="Late"))
    assert people(cast)["invitations"] == []
    assert closed(read("x" * 43)) and closed(come_in("x" * 43, name="Nobody"))


def test_links_last_seven_days_and_an_hour(cast: Cast) -> None:
    invited(cast)
    password_link(cast, cast.technician)
    lasts = {row.kind: row.expires_at - row.made_at for row in EntryLink.objects.all()}
    assert lasts == {"invitation": timedelta(days=7), "password": timedelta(hours=1)}


def test_only_a_hash_of_the_secret_is_kept_and_a_repeat_tells_none(cast: Cast) -> None:
    manager, body = cast.signed_in("manager"), {"email": INES, "role": "parts"}
    key = "0190a9f0-5a3a-7c5c-9d3c-0c8f6a1b2c3d"
    token = secret_of(manager.post("people/invitations", body, key=key))
    assert token not in str(EntryLink.objects.values()[0]) and token not in str(list(History.objects.values()))
    again = manager.post("people/invitations", body, key=key)
    assert (again.status_code, again.json()["url"]) == (201, None)
    assert EntryLink.objects.count() == 1


def test_a_withdrawn_or_replaced_invitation_lets_nobody_in(cast: Cast) -> None:
    first = invited(cast)
    second = invited(cast, role="manager")
    assert closed(read(first))
    link = EntryLink.objects.get(withdrawn_at=None)
    manager = cast.signed_in("manager")
    assert manager.delete(f"people/invitations/{link.pk}").status_code == 204
    assert closed(come_in(second, name="Ines Lark"))
    assert manager.delete(f"people/invitations/{link.pk}").status_code == 204  # a second time changes nothing
    assert verbs(link.pk) == ["invited", "invitation withdrawn"]
    assert not User.objects.filter(email=INES).exists()


def test_whoever_is_a_member_is_not_invited(cast: Cast) -> None:
    answer = cast.signed_in("manager").post(
        "people/invitations", {"email": "Advisor@saltmarsh.example", "role": "manager"}
    )
    assert pointers(answer) == ["/email"]


def test_an_invitation_asks_for_a_name_and_a_sound_password(cast: Cast) -> None:
    token = invited(cast)
    assert pointers(come_in(token)) == ["/name"]
    assert set(pointers(come_in(token, name="Ines", password="short"))) == {"/password"}
    assert come_in(token, name="Ines").status_code == 204


def test_an_account_of_another_workshop_keeps_its_password(cast: Cast, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    stranger = cast.stranger.user
    token = invited(cast, stranger.email)
    assert read(token).json()["name"] == ""
    assert pointers(come_in(token, name="Somebody")) == ["/password"]
    assert come_in(token, name="Somebody", password=PASSWORD).status_code == 204
    stranger.refresh_from_db()
    assert (stranger.name, sign_in(stranger.email, PASSWORD)) == ("Stranger", 200)
    assert Member.objects.get(shop=cast.shop, user=stranger).role == "parts"
    assert Member.objects.get(shop=cast.elsewhere, user=stranger).role == "manager"


@pytest.mark.both
@pytest.mark.parametrize("password", ["short", "password1234", " " * 12, "stranger@elsewhere", "Quill Harrow"])
def test_an_unsound_password_tells_nothing_of_an_account(
    cast: Cast, settings: Any, monkeypatch: pytest.MonkeyPatch, password: str
) -> None:
    """The same answer, hashes and statements for an e-mail with an account and for one without."""
    settings.SIGN_IN_TRIES = 2
    member, new = invited(cast, cast.stranger.user.email), invited(cast, "stranger@elsewhere.invalid")
    hashed: list[str] = []
    encode = MD5PasswordHasher.encode
    monkeypatch.setattr(MD5PasswordHasher, "encode", lambda self, *args: hashed.append("one") or encode(self, *args))

    def tried(token: str) -> tuple[Any, int, int]:
        hashed.clear()
        with CaptureQueriesContext(connection) as statements:
            answer = come_in(token, name="Quill Harrow", password=password)
        return (answer.status_code, answer.json()), len(hashed), len(statements)

    first = tried(member)
    assert first[0][0] == 400 and first[1] == 1
    assert tried(new)[:2] == first[:2]
    assert [tried(token)[0][0] for token in (member, new, member, new)] == [400, 400, 429, 429], "counted alike"
    assert read(member).status_code == read(new).status_code == 200, "neither is used up"


def test_the_password_of_an_account_is_not_guessed_by_a_link(cast: Cast, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    token = invited(cast, cast.stranger.user.email)
    assert [come_in(token, name="X", password="guess after guess").status_code for _ in range(3)] == [400, 400, 429]


def test_a_leaver_who_is_invited_again_is_the_same_member(cast: Cast) -> None:
    manager = cast.signed_in("manager")
    assert manager.delete(f"people/{cast.technician.pk}").status_code == 204
    token = invited(cast, cast.technician.user.email, "advisor")
    assert come_in(token, name="Technician").status_code == 204
    cast.technician.refresh_from_db()
    assert (cast.technician.active, cast.technician.role) == (True, "advisor")
    assert verbs(cast.technician.pk) == ["removed", "joined"]


def test_a_link_of_a_manager_sets_a_new_password_and_ends_the_sign_ins(cast: Cast) -> None:
    phone = cast.signed_in("technician")
    first, token = password_link(cast, cast.technician), password_link(cast, cast.technician)
    assert closed(read(first))
    assert (read(token).json()["kind"], read(token).json()["name"]) == ("password", "Technician")
    assert set(pointers(come_in(token, password="short"))) == {"/password"}
    assert come_in(token).status_code == 204
    assert not PersonSession.objects.filter(user=cast.technician.user).exists(), "nor does a list of sign-ins name one"
    assert phone.get("jobs").status_code == 401
    email = cast.technician.user.email
    assert [sign_in(email, PASSWORD), sign_in(email, NEW)] == [401, 200]
    assert verbs(cast.technician.pk) == ["password link made"] * 2 + ["password changed"]
    assert closed(come_in(token))


def test_no_link_opens_an_account_that_another_workshop_knows(cast: Cast) -> None:
    member, _ = set_member(shop=cast.shop, email=cast.stranger.user.email, name="Stranger", role="parts", password=None)
    answer = cast.signed_in("manager").post(f"people/{member.pk}/password-link")
    assert (answer.status_code, refused(answer)) == (409, "password-of-several-workshops")
    token = password_link(cast, cast.technician)
    set_member(shop=cast.elsewhere, email=cast.technician.user.email, name="T", role="parts", password=None)
    assert closed(come_in(token)), "another workshop came to know the person since the link was made"


def test_a_role_is_changed_at_once(cast: Cast) -> None:
    phone, manager = cast.signed_in("technician"), cast.signed_in("manager")
    assert phone.get("customers").status_code == 403
    answer = manager.patch(f"people/{cast.technician.pk}", {"role": "advisor"})
    assert (answer.status_code, answer.json()["role"]) == (200, "advisor")
    assert phone.get("customers").status_code == 200
    assert manager.patch(f"people/{cast.technician.pk}", {"role": "advisor"}).status_code == 200
    (entry,) = History.objects.filter(subject_id=cast.technician.pk)
    assert (entry.verb, entry.changes, entry.author) == ("changed", {"role": ["technician", "advisor"]}, cast.manager)


def test_who_is_removed_is_out_at_once_and_what_they_did_keeps_their_name(cast: Cast) -> None:
    phone, manager = cast.signed_in("technician"), cast.signed_in("manager")
    assert manager.delete(f"people/{cast.technician.pk}").status_code == 204
    assert phone.get("jobs").status_code == 401
    assert cast.technician.user.email not in {row["email"] for row in people(cast)["members"]}
    again = manager.delete(f"people/{cast.technician.pk}")
    assert again.status_code == 404
    assert User.objects.get(pk=cast.technician.user_id).name == "Technician"


def test_the_last_manager_stays_manager(cast: Cast) -> None:
    manager, own = cast.signed_in("manager"), f"people/{cast.manager.pk}"
    assert [row["name"] for row in people(cast)["members"] if row["last_manager"]] == ["Manager"]
    for answer in (manager.delete(own), manager.patch(own, {"role": "parts"})):
        assert (answer.status_code, refused(answer)) == (409, "last-manager")
    assert manager.patch(f"people/{cast.parts.pk}", {"role": "manager"}).status_code == 200
    assert not any(row["last_manager"] for row in people(cast)["members"])
    assert manager.patch(own, {"role": "parts"}).status_code == 200
    assert manager.get("people").status_code == 403


def test_a_manager_who_leaves_takes_no_open_link_along(cast: Cast) -> None:
    token = invited(cast)
    set_member(shop=cast.shop, email="second@saltmarsh.example", name="Second", role="manager", password=NEW)
    for_technician = password_link(cast, cast.technician)
    second = CheckedClient()
    assert second.post(SESSION, {"email": "second@saltmarsh.example", "password": NEW}).status_code == 200
    assert second.patch(f"people/{cast.manager.pk}", {"role": "parts"}).status_code == 200
    assert closed(read(token)) and closed(read(for_technician))


def test_a_manager_sees_and_ends_the_sign_ins_of_a_member(cast: Cast) -> None:
    phone, tablet, manager = cast.signed_in("technician"), cast.signed_in("technician"), cast.signed_in("manager")
    where = f"people/{cast.technician.pk}/sign-ins"
    items = manager.get(where).json()["items"]
    assert [item["here"] for item in items] == [False, False]
    assert manager.delete(f"{where}/{items[0]['id']}").status_code == 204
    assert manager.delete(f"{where}/{items[0]['id']}").status_code == 404
    assert sorted(client.get("jobs").status_code for client in (phone, tablet)) == [200, 401]
    other = f"people/{cast.parts.pk}/sign-ins/{items[1]['id']}"
    assert manager.delete(other).status_code == 404, "it is another member's"
    assert manager.delete(where).status_code == 204
    assert PersonSession.objects.filter(user=cast.technician.user).count() == 0
    assert verbs(cast.technician.pk) == ["sign-ins ended"] * 2
    assert manager.get("jobs").status_code == 200


def test_the_number_of_people_does_not_change_the_number_of_queries(cast: Cast, django_assert_num_queries: Any) -> None:
    manager = cast.signed_in("manager")
    for n in range(5):
        set_member(shop=cast.shop, email=f"{n}@saltmarsh.example", name=f"N {n}", role="parts", password=None)
        invited(cast, f"new{n}@saltmarsh.example")
    with django_assert_num_queries(
        6
    ):  # the session, its person, the member, the members, the invitations and the e-mails
        assert len(manager.get("people").json()["members"]) == 9


def test_using_a_link_needs_the_csrf_token(cast: Cast) -> None:
    client = CheckedClient(enforce_csrf_checks=True)
    assert client.post(ENTRY, {"token": "x", "password": NEW}).status_code == 403
