"""The e-mails by which people come in: an invitation, and links for a new password."""

from shop.documents.letter import Letter
from shop.models import EntryLink
from shop.presenters.dates import instant_words
from shop.words import say


def invitation_letter(link: EntryLink, *, address: str) -> Letter:
    """The e-mail to a person who is invited."""
    assert link.author is not None
    facts = {"author": link.author.user.name, "house": link.shop.name, "email": link.email}
    return Letter(
        subject=say("entry.mail_invitation_subject", house=link.shop.name),
        before=(say("entry.mail_hello"), say("entry.mail_invitation", **facts)),
        button=say("entry.mail_invitation_button"),
        address=address,
        after=(say("entry.mail_invitation_until", at=_end(link)), say("entry.mail_private")),
        signature=_signature(link),
    )


def password_letter(link: EntryLink, *, address: str) -> Letter:
    """The e-mail to a member for whom a manager made a link for a new password."""
    assert link.member is not None and link.author is not None
    name, author = link.member.user.name, link.author.user.name
    return Letter(
        subject=say("entry.mail_password_subject", house=link.shop.name),
        before=(say("entry.mail_greeting", name=name), say("entry.mail_password", author=author, house=link.shop.name)),
        button=say("entry.mail_password_button"),
        address=address,
        after=(say("entry.mail_password_until", at=_end(link)), say("entry.mail_private")),
        signature=_signature(link),
    )


def forgotten_letter(link: EntryLink, *, address: str) -> Letter:
    """The e-mail to a person for whom a new password was asked for at the sign-in."""
    assert link.member is not None
    return Letter(
        subject=say("entry.mail_forgotten_subject"),
        before=(say("entry.mail_greeting", name=link.member.user.name), say("entry.mail_forgotten")),
        button=say("entry.mail_password_button"),
        address=address,
        after=(say("entry.mail_password_until", at=_end(link)), say("entry.mail_forgotten_not_you")),
        signature=_signature(link),
    )


def _end(link: EntryLink) -> str:
    return instant_words(link.expires_at, link.shop.zone)


def _signature(link: EntryLink) -> tuple[str, ...]:
    return tuple(line for line in (link.shop.name, link.shop.address, link.shop.phone) if line)
