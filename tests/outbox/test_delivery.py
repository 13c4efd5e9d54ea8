"""A message given to a real mail server on a socket, and what each way of failing means."""

import logging
from typing import Any

import pytest
from django.core.mail import EmailMessage

from shop.calc.mailing import Failure
from shop.outbox.delivery import deliver
from tests.smtp_server import SmtpServer

MESSAGE = EmailMessage("Your quote", "Hello", "quotes@workshop.example", ["maren@mail.example"])


def test_a_message_is_taken(server: SmtpServer) -> None:
    assert deliver(MESSAGE) is None
    (mail,) = server.delivered
    assert (mail.to, mail.message["Subject"]) == ("maren@mail.example", "Your quote")


@pytest.mark.parametrize(
    ("verb", "reply", "failure"),
    [
        ("EHLO", "", Failure("interrupted")),
        ("MAIL", "451 try later", Failure("refused", "try later")),
        ("MAIL", "550 not you", Failure("refused", "not you", lasting=True)),
        ("RCPT", "450 greylisted", Failure("recipient", "greylisted")),
        ("RCPT", "550 no such mailbox", Failure("recipient", "no such mailbox", lasting=True)),
        ("RCPT", "", Failure("interrupted")),
        ("DATA", "554 no", Failure("refused", "no", lasting=True)),
        ("TEXT", "451 full", Failure("refused", "full")),
        ("TEXT", "554 looks like spam", Failure("refused", "looks like spam", lasting=True)),
    ],
)
def test_what_the_server_refuses_has_not_left(server: SmtpServer, verb: str, reply: str, failure: Failure) -> None:
    server.replies[verb] = reply
    assert deliver(MESSAGE) == failure
    assert server.delivered == []


def test_a_connection_that_breaks_after_the_text_leaves_it_open(server: SmtpServer) -> None:
    server.replies["TEXT"] = ""
    assert deliver(MESSAGE) == Failure("interrupted", left=True)
    assert len(server.delivered) == 1


def test_a_server_that_falls_silent_after_the_text_leaves_it_open(server: SmtpServer, settings: Any) -> None:
    settings.EMAIL_TIMEOUT = 0.2
    server.pauses.add("TEXT")
    assert deliver(MESSAGE) == Failure("interrupted", left=True)


def test_a_server_that_is_not_there_gets_nothing(server: SmtpServer, settings: Any) -> None:
    settings.EMAIL_PORT = 1
    assert deliver(MESSAGE) == Failure("unreachable")


def test_without_encryption_neither_password_nor_mail_is_sent(server: SmtpServer, settings: Any) -> None:
    settings.EMAIL_USE_TLS, settings.EMAIL_HOST_USER, settings.EMAIL_HOST_PASSWORD = True, "workshop", "spanner-7"
    server.offers = ("AUTH PLAIN",)
    assert deliver(MESSAGE) == Failure("encryption")
    assert not server.delivered and not [line for line in server.heard if "AUTH" in line]


def test_a_wrong_password_is_named_and_told_to_nobody(
    server: SmtpServer, settings: Any, caplog: pytest.LogCaptureFixture
) -> None:
    settings.EMAIL_HOST_USER, settings.EMAIL_HOST_PASSWORD = "workshop", "spanner-7"
    server.offers, server.replies["AUTH"] = ("AUTH PLAIN",), "535 wrong"
    with caplog.at_level(logging.DEBUG):
        assert deliver(MESSAGE) == Failure("sign_in", "wrong")
    assert "\0workshop\0spanner-7" in server.heard  # it was tried
    assert "spanner-7" not in caplog.text


def test_the_servers_words_stand_on_one_line(server: SmtpServer) -> None:
    server.replies["RCPT"] = "550-no such\x1b[31m mailbox\r\n550 \u202eevil " + "x" * 300
    failure = deliver(MESSAGE)
    assert failure is not None and failure.reply.startswith("no such [31m mailbox evil xxx")
    assert len(failure.reply) == 200
