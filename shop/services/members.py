"""Changes members' roles, removes members and ends their sign-ins. A shop keeps at least one manager."""

from datetime import datetime
from uuid import UUID

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError
from shop.models import Member, PhonePin, Shop
from shop.services.api_tokens import revoke_tokens_around
from shop.services.calendar_feeds import revoke_feeds_of
from shop.services.entry_links import withdraw_links_around
from shop.services.history import record
from shop.services.sessions import end_pins, end_session, end_sessions
from shop.services.webhooks import switch_off_around


@transaction.atomic
def change_role(*, actor: Actor, member: Member, role: str, now: datetime) -> Member:
    """Gives a member another role, and ends their PINs and tokens. Refused for the last manager."""
    row = _locked(actor, member)
    if row.role == role:
        return row
    before = row.role
    if before == Member.Role.MANAGER:
        _keep_a_manager(row)
        withdraw_links_around(actor=actor, member=row, now=now)
    row.role = role
    row.clean_fields()
    row.save(update_fields=["role"])
    end_pins(user=row.user_id)
    revoke_tokens_around(actor=actor, member=row, now=now)
    revoke_feeds_of(actor=actor, member=row, now=now)
    switch_off_around(actor=actor, member=row, now=now)
    record(actor=actor, verb="changed", row=row, changes={"role": [before, role]})
    return row


@transaction.atomic
def remove(*, actor: Actor, member: Member, now: datetime) -> None:
    """Ends a membership, its tokens and all sign-ins of the person. Refused for the last manager."""
    row = _locked(actor, member)
    if row.role == Member.Role.MANAGER:
        _keep_a_manager(row)
    row.active = False
    row.save(update_fields=["active"])
    end_sessions(user=row.user_id)
    revoke_tokens_around(actor=actor, member=row, now=now)
    revoke_feeds_of(actor=actor, member=row, now=now)
    switch_off_around(actor=actor, member=row, now=now)
    withdraw_links_around(actor=actor, member=row, now=now)
    record(actor=actor, verb="removed", row=row, changes={"active": [True, False]})


@transaction.atomic
def end_sign_ins(*, actor: Actor, member: Member) -> None:
    """Ends all sign-ins of a member."""
    if end_sessions(user=member.user_id):
        record(actor=actor, verb="sign-ins ended", row=member)


@transaction.atomic
def end_sign_in(*, actor: Actor, member: Member, id: UUID) -> bool:
    """Ends one sign-in of a member; False if none of theirs has this id."""
    ended = end_session(user=member.user_id, id=id)
    if ended:
        record(actor=actor, verb="sign-ins ended", row=member)
    return ended


@transaction.atomic
def end_pin_of(*, actor: Actor, member: Member, id: UUID) -> bool:
    """Ends a PIN of a member; False if none of theirs has this id."""
    ended = PhonePin.objects.filter(user=member.user_id, pk=id).delete()[0] > 0
    if ended:
        record(actor=actor, verb="PIN ended", row=member)
    return ended


def _locked(actor: Actor, member: Member) -> Member:
    """The member as stored now, under the shop's lock: of two managers who remove each other at once, one stays."""
    Shop.objects.select_for_update().get(pk=actor.shop.pk)
    row = Member.objects.select_related("user").get(shop=actor.shop, pk=member.pk)
    if not row.active:
        raise RequestError(409, "not-a-member")
    return row


def _keep_a_manager(member: Member) -> None:
    managers = Member.objects.filter(shop=member.shop_id, role=Member.Role.MANAGER, active=True)
    if not managers.exclude(pk=member.pk).exists():
        raise RequestError(409, "last-manager")
