"""Gives one message to the mail server, and says what a failure means.

Nothing has left if there was no connection, if it broke before the server was given the text, or if the server refused
the sender, the recipient or the text (RFC 5321: a 4xx or 5xx reply). After anything else the message may have left.
"""

import smtplib
from collections.abc import Callable
from contextlib import suppress

from django.core.mail import EmailMessage, get_connection

from shop.calc.mailing import Failure

LONGEST_REPLY = 200


def deliver(message: EmailMessage) -> Failure | None:
    """None once the mail server has taken the message."""
    connection = get_connection()
    try:
        try:
            connection.open()
        except (OSError, smtplib.SMTPException) as error:
            return _not_connected(error)
        try:
            connection.send_messages([message])
        except (OSError, smtplib.SMTPException) as error:
            return _not_taken(error, text_given=getattr(connection, "text_given", True))
        return None
    finally:
        with suppress(OSError, smtplib.SMTPException):
            connection.close()


def _not_connected(error: Exception) -> Failure:
    if isinstance(error, smtplib.SMTPAuthenticationError):
        return Failure("sign_in", _words(error.smtp_error))
    if isinstance(error, smtplib.SMTPNotSupportedError):
        return Failure("encryption")
    if isinstance(error, smtplib.SMTPResponseException):
        return Failure("refused", _words(error.smtp_error))
    return Failure("unreachable")


def _not_taken(error: Exception, *, text_given: bool) -> Failure:
    if isinstance(error, smtplib.SMTPRecipientsRefused):
        return _refused("recipient", *next(iter(error.recipients.values())))
    if isinstance(error, smtplib.SMTPResponseException) and error.smtp_code >= 400:
        return _refused("refused", error.smtp_code, error.smtp_error)
    return Failure("interrupted", left=text_given)


def _refused(code: str, status: int, reply: bytes | str) -> Failure:
    return Failure(code, _words(reply), lasting=status >= 500)


def _words(reply: bytes | str) -> str:
    """The reply on one line, without characters that are not printed."""
    text = reply.decode("utf-8", "replace") if isinstance(reply, bytes) else reply
    printed = "".join(character if character.isprintable() else " " for character in text)
    return " ".join(printed.split())[:LONGEST_REPLY]


Deliver = Callable[[EmailMessage], Failure | None]
