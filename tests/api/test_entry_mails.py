"""A manager sends an invitation or a link for a new password by e-mail, where a mail server is set up."""

import re
from typing import Any

import pytest

from shop.models import Command, EntryLink, History, Outbox
from shop.outbox import worker
from tests.api.test_members import INES, NEW, closed, come_in, invited, people, read, refused, sign_in
from tests.cast import Cast

pytestmark = pytest.mark.once

BODY = {"email": INES, "role": "parts", "by_mail": True}


@pytest.fixture(autouse=True)
def mail_server(settings: Any) -> None:
    settings.MAIL_IS_SENT = True


def token_in(mailoutbox: list[Any]) -> str:
    (message,) = mailoutbox
    (token,) = re.findall(r"http://testserver/sign-in#(\S+)", message.body)
    assert token in message.alternatives[0][0]
    return str(token)


def invite(cast: Cast) -> Any:
    return cast.signed_in("manager").post("people/invitations", BODY)


def invitation(cast: Cast) -> Any:
    (row,) = people(cast)["invitations"]
    return row["mail"]


def test_an_invitation_goes_out_and_lets_the_person_in(cast: Cast, mailoutbox: list[Any]) -> None:
    answer = invite(cast)
    assert (answer.status_code, answer.json()["url"]) == (201, None)
    assert invitation(cast) == {"state": "waiting", "words": "waiting to be sent"}
    worker.send_next()
    (message,) = mailoutbox
    assert (message.to, message.subject) == ([INES], "Saltmarsh Lane Motor Works invites you")
    assert "Manager invites you to work with Saltmarsh Lane Motor Works" in message.body
    assert invitation(cast)["state"] == "done" and invitation(cast)["words"].startswith("sent ")
    assert come_in(token_in(mailoutbox), name="Ines Lark").status_code == 204
    assert sign_in(INES, NEW) == 200


def test_a_password_link_goes_to_the_member_alone(cast: Cast, mailoutbox: list[Any]) -> None:
    link = cast.signed_in("manager").post(f"people/{cast.technician.pk}/password-link", {"by_mail": True})
    assert (link.status_code, link.json()["url"]) == (201, None)
    worker.send_next()
    assert mailoutbox[0].to == [cast.technician.user.email]
    assert mailoutbox[0].subject == "A new password: Saltmarsh Lane Motor Works"
    states = {row["name"]: row["mail"] and row["mail"]["state"] for row in people(cast)["members"]}
    assert states == {"Advisor": None, "Manager": None, "Parts": None, "Technician": "done"}
    assert come_in(token_in(mailoutbox)).status_code == 204
    assert sign_in(cast.technician.user.email, NEW) == 200


def test_its_secret_is_kept_nowhere_in_plain_and_forgotten_when_sent(cast: Cast, mailoutbox: list[Any]) -> None:
    invite(cast)
    row = Outbox.objects.get()
    sealed = row.body["sealed"]
    worker.send_next()
    row.refresh_from_db()
    assert "sealed" not in row.body
    rows = [*Outbox.objects.values(), *Command.objects.values(), *History.objects.values(), *EntryLink.objects.values()]
    assert token_in(mailoutbox) not in str(rows) and sealed not in str(rows)


@pytest.mark.parametrize("ending", ["withdrawn", "replaced", "other key"])
def test_a_link_that_works_no_more_is_not_sent(cast: Cast, mailoutbox: list[Any], settings: Any, ending: str) -> None:
    invite(cast)
    if ending == "withdrawn":
        cast.signed_in("manager").delete(f"people/invitations/{EntryLink.objects.get().pk}")
    elif ending == "replaced":
        invited(cast)
    row = Outbox.objects.get()
    if ending == "other key":
        settings.SECRET_KEY = "another key"
    worker.send_next()
    row.refresh_from_db()
    reason = {"other key": "link_lost"}.get(ending, "link_cancelled")
    assert (row.state, row.reason, mailoutbox) == ("cancelled", reason, [])


def test_without_a_mail_server_nothing_is_made_and_the_screen_knows(cast: Cast, settings: Any) -> None:
    settings.MAIL_IS_SENT = False
    answer = invite(cast)
    assert (answer.status_code, refused(answer)) == (409, "no-mail-server")
    assert not EntryLink.objects.exists() and people(cast)["mail_is_sent"] is False
    token = invited(cast)
    assert read(token).status_code == 200 and not closed(read(token))
