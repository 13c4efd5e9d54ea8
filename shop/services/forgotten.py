"""Forgotten passwords: a request is kept for any e-mail, and answered later by an e-mail to the person, or not."""

from datetime import datetime, timedelta

from django.db import transaction

from shop.access import Actor
from shop.models import Member, PasswordRequest
from shop.services import outbox
from shop.services.entry_links import make_forgotten_link
from shop.services.entry_mails import send_entry_link

TOO_OLD = timedelta(hours=1)


@transaction.atomic
def ask_for_password(*, email: str, site: str, now: datetime) -> None:
    """Keeps the request. No account is looked up, so that neither the answer nor its time tells of one."""
    PasswordRequest(email=email.lower(), site=site[:200], asked_at=now).save(force_insert=True)
    transaction.on_commit(outbox.written.set)


def answer_next_request(*, now: datetime) -> bool:
    """Answers the oldest request; False where there is none. Call it outside a transaction.

    A request is removed first and answered at most once, so that a failure cannot hold up those behind it.
    """
    row = PasswordRequest.objects.order_by("asked_at", "pk").first()
    if row is None:
        return False
    if PasswordRequest.objects.filter(pk=row.pk).delete()[0] and row.asked_at > now - TOO_OLD:
        _answer(row, now)
    return True


@transaction.atomic
def _answer(row: PasswordRequest, now: datetime) -> None:
    """Sends the person a link on behalf of one of their shops; none to a person without a shop."""
    members = Member.objects.filter(user__email=row.email, user__is_active=True, active=True)
    member = members.select_related("shop", "user").order_by("shop__slug").first()
    if member is None or (new_link := make_forgotten_link(member=member, now=now)) is None:
        return
    link, token = new_link
    send_entry_link(actor=Actor(shop=member.shop, member=None), link=link, token=token, site=row.site, now=now)
