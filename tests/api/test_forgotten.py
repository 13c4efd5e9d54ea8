"""A forgotten password: the answer tells nothing, and the person alone gets a link that works once within an hour."""

import re
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from shop.models import EntryLink, History, Member, Outbox, PasswordRequest
from shop.outbox import worker
from shop.services.entry_links import FORGOTTEN_AN_HOUR
from shop.services.people import remove_member, set_member
from tests.api.test_members import NEW, closed, come_in, people, read, refused, sign_in
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

pytestmark = pytest.mark.once

FORGOTTEN = "/api/v1/forgotten"


@pytest.fixture(autouse=True)
def mail_server(settings: Any) -> None:
    settings.MAIL_IS_SENT = True


def ask(email: str, address: str = "203.0.113.7") -> Any:
    return CheckedClient().post(FORGOTTEN, {"email": email}, REMOTE_ADDR=address)


def work() -> None:
    while worker.work_next():
        pass


def token_in(message: Any) -> str:
    (token,) = re.findall(r"http://testserver/sign-in#(\S+)", message.body)
    return str(token)


def test_a_link_by_e_mail_sets_a_new_password_once(cast: Cast, mailoutbox: list[Any]) -> None:
    phone, email = cast.signed_in("technician"), cast.technician.user.email
    assert ask(email.title()).status_code == 204
    work()
    (message,) = mailoutbox
    assert (message.to, message.subject) == ([email], "A new password")
    token = token_in(message)
    assert (read(token).json()["kind"], read(token).json()["name"]) == ("password", "Technician")
    assert come_in(token).status_code == 204
    assert phone.get("jobs").status_code == 401
    assert [sign_in(email, PASSWORD), sign_in(email, NEW)] == [401, 200]
    assert closed(come_in(token, "another wet slate"))
    verbs = History.objects.filter(subject_id=cast.technician.pk).order_by("recorded_at").values_list("verb", flat=True)
    assert list(verbs) == ["password link asked", "password changed"]
    (link,) = EntryLink.objects.all()
    assert (link.expires_at - link.made_at, link.author) == (timedelta(hours=1), None)


@pytest.mark.both
def test_the_answer_and_its_work_are_the_same_for_every_e_mail(cast: Cast, mailoutbox: list[Any]) -> None:
    remove_member(shop=cast.shop, email=cast.parts.user.email)
    answers, statements = [], []
    for email in (cast.technician.user.email, "nobody@saltmarsh.example", cast.parts.user.email):
        with CaptureQueriesContext(connection) as queries:
            answer = ask(email)
        answers.append((answer.status_code, answer.content, dict(answer.headers)))
        statements.append([re.sub(r"'[^']*'|[0-9a-f]{32,}|_x\d+", "", query["sql"]) for query in queries])
    assert answers[0] == answers[1] == answers[2]
    assert statements[0] == statements[1] == statements[2]
    work()
    assert [message.to for message in mailoutbox] == [[cast.technician.user.email]]
    assert not PasswordRequest.objects.exists()


def test_requests_are_counted_by_person_and_address_and_no_mailbox_is_filled(
    cast: Cast, mailoutbox: list[Any], settings: Any
) -> None:
    settings.SIGN_IN_TRIES = 2
    email = cast.technician.user.email
    assert [ask(email).status_code for _ in range(3)] == [204, 204, 429]
    assert [ask("nobody@saltmarsh.example").status_code for _ in range(3)] == [204, 204, 429]
    assert sign_in(email, PASSWORD) == 200, "a stranger's requests keep nobody from signing in"
    for n in range(FORGOTTEN_AN_HOUR):
        work()
        ask(email, f"198.51.100.{n}")
    work()
    assert EntryLink.objects.count() == FORGOTTEN_AN_HOUR and not PasswordRequest.objects.exists()
    assert [closed(read(token_in(message))) for message in mailoutbox] == [True, True, False], "the newest one works"


def test_it_opens_an_account_of_several_workshops_and_each_keeps_a_record(cast: Cast, mailoutbox: list[Any]) -> None:
    email = cast.technician.user.email
    other, _ = set_member(shop=cast.elsewhere, email=email, name="Technician", role="parts", password=None)
    ask(email)
    work()
    assert come_in(token_in(mailoutbox[0])).status_code == 204 and sign_in(email, NEW) == 200
    for member in (other, cast.technician):
        assert History.objects.filter(subject_id=member.pk, verb="password changed").count() == 1
    assert {row["mail"] for row in people(cast)["members"]} == {None}, "a manager is not told who forgot a password"


def test_whoever_left_since_does_not_come_in(cast: Cast, mailoutbox: list[Any]) -> None:
    ask(cast.technician.user.email)
    work()
    assert cast.signed_in("manager").delete(f"people/{cast.technician.pk}").status_code == 204
    assert closed(come_in(token_in(mailoutbox[0])))
    assert not Member.objects.get(pk=cast.technician.pk).active


def test_a_request_that_waited_too_long_is_dropped(cast: Cast) -> None:
    ask(cast.technician.user.email)
    PasswordRequest.objects.update(asked_at=timezone.now() - timedelta(hours=1))
    work()
    assert not PasswordRequest.objects.exists() and not Outbox.objects.exists()


def test_without_a_mail_server_it_names_the_manager(cast: Cast, settings: Any) -> None:
    settings.MAIL_IS_SENT = False
    answer = ask(cast.technician.user.email)
    assert (answer.status_code, refused(answer)) == (409, "no-password-by-mail")
    assert CheckedClient().get("/api/v1/session").json()["mail_is_sent"] is False
    assert not PasswordRequest.objects.exists()


def test_it_needs_the_csrf_token(cast: Cast) -> None:
    client = CheckedClient(enforce_csrf_checks=True)
    assert client.post(FORGOTTEN, {"email": cast.technician.user.email}).status_code == 403
