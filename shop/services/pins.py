"""PINs: six digits by which a person comes in on one device, in place of the password and its second factor.

A PIN works on the device where it was set, until five wrong tries, its last day, or the end of the person's sign-ins.
"""

import secrets
from datetime import datetime, timedelta
from uuid import UUID

from django.conf import settings
from django.contrib.auth.hashers import make_password
from django.db import transaction
from django.db.models import F

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Member, PhonePin, Shop, User
from shop.models.pins import TRIES
from shop.services.entry_links import hash_of
from shop.services.history import record

DIGITS = 6
RUNS = "01234567890", "09876543210"


def check_pin(pin: str) -> None:
    """Refuses a PIN that is not six digits, and those that a stranger tries first."""
    if len(pin) != DIGITS or not (pin.isascii() and pin.isdecimal()):
        raise field_error("/pin", "pin_digits")
    if is_trivial(pin):
        raise field_error("/pin", "pin_trivial")


def is_trivial(pin: str) -> bool:
    """Whether the PIN has fewer than three different digits, counts up or down, or repeats its first half."""
    return len(set(pin)) < 3 or any(pin in run for run in RUNS) or pin[:3] == pin[3:]


def pin_hash(pin: str) -> str:
    """The slow hash of a PIN. Call it outside a transaction, within `hashing()`."""
    return make_password(pin)


@transaction.atomic
def set_pin(*, user: User, hashed: str, device: str, agent: str, now: datetime) -> tuple[PhonePin, str]:
    """Sets the person's PIN on a device, in place of an earlier one; (PIN, secret of the device).

    `device` is the secret that the device has. A device whose PINs have all ended gets another.
    """
    if not device or not PhonePin.objects.filter(device_hash=hash_of(device), expires_at__gt=now).exists():
        device = secrets.token_urlsafe(32)
    PhonePin.objects.filter(user=user, device_hash=hash_of(device)).delete()
    row = PhonePin(
        user=user,
        device_hash=hash_of(device),
        pin_hash=hashed,
        agent=agent[:300],
        set_at=now,
        expires_at=now + timedelta(days=settings.PIN_DAYS),
    )
    row.save(force_insert=True)
    _record(user, "PIN set")
    return row, device


@transaction.atomic
def count_pin_try(*, id: UUID, device: str, now: datetime) -> PhonePin:
    """Counts a try and returns the PIN to check. It is counted first, so that simultaneous tries exceed no limit.

    A PIN of another device is refused like one that never was.
    """
    rows = PhonePin.objects.filter(pk=id, device_hash=hash_of(device), expires_at__gt=now)
    if not rows.filter(user__is_active=True).exists():
        raise RequestError(401, "pin-ended")
    # Without a join, so that PostgreSQL asks the number of tries again once it has the row's lock.
    if not rows.filter(wrong_tries__lt=TRIES).update(wrong_tries=F("wrong_tries") + 1):
        raise RequestError(401, "pin-used-up")
    row: PhonePin = rows.select_related("user").get()
    return row


def refuse_wrong_pin(row: PhonePin) -> RequestError:
    """The refusal of a wrong PIN, with the tries that are left."""
    left = row.tries_left
    return RequestError(401, "wrong-pin", left=left) if left else RequestError(401, "pin-used-up")


def forget_wrong_tries(*, user: User, device: str) -> None:
    """Forgets the wrong tries of a person on a device, after the right PIN or the password."""
    PhonePin.objects.filter(user=user, device_hash=hash_of(device), wrong_tries__gt=0).update(wrong_tries=0)


@transaction.atomic
def end_pin(*, user: User, id: UUID) -> bool:
    """Ends one of the person's PINs; False if none of theirs has this id."""
    if not PhonePin.objects.filter(user=user, pk=id).delete()[0]:
        return False
    _record(user, "PIN ended")
    return True


def pins_of(*, user: User, now: datetime) -> list[PhonePin]:
    """The person's PINs on all devices, newest first."""
    return list(PhonePin.objects.filter(user=user, expires_at__gt=now).order_by("-set_at"))


def pins_on(*, device: str, now: datetime) -> list[UUID]:
    """The ids of the PINs of everybody on a device."""
    rows = PhonePin.objects.filter(device_hash=hash_of(device), expires_at__gt=now)
    return list(rows.order_by("set_at").values_list("pk", flat=True))


def member_on(*, device: str, shop: Shop, member: str, now: datetime) -> Member | None:
    """The member of the shop with this id, if they have a PIN on the device."""
    try:
        members = Member.objects.filter(shop=shop, pk=UUID(member), active=True).select_related("shop")
    except ValueError:
        return None
    here = PhonePin.objects.filter(device_hash=hash_of(device), expires_at__gt=now).values("user_id")
    return members.filter(user_id__in=here).first()


def purge_pins(*, now: datetime) -> int:
    """Removes PINs past their last day. Returns their number."""
    return PhonePin.objects.filter(expires_at__lte=now).delete()[0]


def _record(user: User, verb: str) -> None:
    for member in Member.objects.filter(user=user, active=True).select_related("shop"):
        record(actor=Actor(shop=member.shop, member=member), verb=verb, row=member)
