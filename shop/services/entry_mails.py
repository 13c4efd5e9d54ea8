"""E-mails with an entry link: asked for in the transaction that makes the link, written when they are sent."""

from datetime import datetime

from django.conf import settings
from django.core.mail import EmailMessage

from shop.access import Actor
from shop.documents.entry_letters import forgotten_letter, invitation_letter, password_letter
from shop.documents.letter import message
from shop.errors import RequestError
from shop.models import EntryLink, Outbox
from shop.rows import uuid7
from shop.sealing import opened, seal
from shop.services import outbox
from shop.services.entry_links import hash_of
from shop.services.history import record
from shop.services.outbox_kinds import Kind, NotWantedError, register
from shop.words.languages import speaking

ENDED = (Outbox.State.DONE, Outbox.State.CANCELLED)
LETTERS = {
    EntryLink.Kind.INVITATION: invitation_letter,
    EntryLink.Kind.PASSWORD: password_letter,
    EntryLink.Kind.FORGOTTEN: forgotten_letter,
}
OUTBOX = "outbox"  # the actor in the history where the outbox acts


def send_entry_link(*, actor: Actor, link: EntryLink, token: str, site: str, now: datetime) -> Outbox:
    """Asks for the e-mail with a link that was just made. `site` is what its address begins with.

    409 where no mail server is set up: the link has to be handed over.
    """
    if not settings.MAIL_IS_SENT:
        raise RequestError(409, "no-mail-server")
    id = uuid7()
    to = link.member.user.email if link.member else link.email
    body = {"to": to, "link": str(link.pk), "sealed": seal(token, id), "site": site}
    subject = link.member_id or link.pk
    return outbox.put(actor=actor, kind=link.kind, subject_id=subject, body=body, now=now, id=id)


def _write(row: Outbox, now: datetime) -> EmailMessage:
    link = EntryLink.objects.select_related("shop", "author__user", "member__user").get(
        shop=row.shop_id, pk=row.body["link"]
    )
    if link.withdrawn_at is not None:
        raise NotWantedError("link_cancelled")
    if link.used_at is not None or link.expires_at <= now:
        raise NotWantedError("link_ended")
    token = opened(row.body["sealed"], row.pk)
    if hash_of(token) != link.token_hash:
        raise NotWantedError("link_lost")
    with speaking(link.member.language if link.member else "", link.shop.language):
        return message(
            row,
            LETTERS[EntryLink.Kind(link.kind)](link, address=f"{row.body['site']}/sign-in#{token}"),
            to=row.body["to"],
        )


def _changed(row: Outbox, before: str) -> None:
    """Notes at the link the state of its e-mail. An e-mail that has ended loses its secret."""
    if row.state in ENDED:
        row.body = {name: value for name, value in row.body.items() if name != "sealed"}
        row.save(update_fields=["body"])
    link = EntryLink.objects.get(shop=row.shop_id, pk=row.body["link"])
    actor = Actor(shop=row.shop, member=None, channel=OUTBOX)
    record(actor=actor, verb=f"mail {row.state}", row=link, changes={"state": [before, row.state]})


def register_kinds() -> None:
    for kind in EntryLink.Kind.values:
        register(kind, Kind(_write, _changed))
