"""The second factor of a sign-in: switched on by a confirmed code, proved by a code, switched off.

Each change is recorded in every shop of the person.
"""

from datetime import datetime

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Authenticator, Member, RecoveryCode, Shop, User
from shop.rows import uuid7
from shop.services.entry_links import is_known_elsewhere
from shop.services.history import record
from shop.services.one_time_codes import (
    RECOVERY_CODES,
    digest_of,
    matching_step,
    new_recovery_code,
    new_secret,
    plain,
    sealed,
    unsealed,
)
from shop.services.sessions import end_pins


@transaction.atomic
def begin(*, user: User) -> bytes:
    """Makes a secret, in place of one that was not confirmed. The password alone signs in until it is."""
    if _locked(user).second_factor_since is not None:
        raise RequestError(409, "second-factor-on")
    Authenticator.objects.filter(user=user).delete()
    secret, id = new_secret(), uuid7()
    Authenticator.objects.create(id=id, user=user, sealed=sealed(secret, id))
    return secret


@transaction.atomic
def confirm(*, user: User, code: str, now: datetime) -> list[str]:
    """Switches the second factor on. Returns the recovery codes, which are shown once."""
    person = _locked(user)
    if person.second_factor_since is not None:
        raise RequestError(409, "second-factor-on")
    if not _matches(user, plain(code), now):
        raise field_error("/code", "one_time_code")
    RecoveryCode.objects.filter(user=user).delete()
    codes = [new_recovery_code() for _ in range(RECOVERY_CODES)]
    RecoveryCode.objects.bulk_create(RecoveryCode(user=user, digest=digest_of(code, user.pk)) for code in codes)
    person.second_factor_since = user.second_factor_since = now
    person.save(update_fields=["second_factor_since"])
    end_pins(user=user.pk)  # they were set without it
    _record(user, "second factor on")
    return codes


@transaction.atomic
def prove(*, user: User, code: str, now: datetime) -> bool:
    """Uses a code of the authenticator or a recovery code; False for one that is wrong or was used."""
    code = plain(code)
    if _matches(user, code, now):
        return True
    unused = RecoveryCode.objects.filter(user=user, digest=digest_of(code, user.pk), used_at__isnull=True)
    if not unused.update(used_at=now):
        return False
    _record(user, "recovery code used")
    return True


@transaction.atomic
def switch_off(*, user: User) -> None:
    """Switches the person's own second factor off. Refused while one of their shops asks for it."""
    for member in Member.objects.filter(user=user, active=True).select_related("shop"):
        if member.needs_second_factor:
            raise RequestError(409, "second-factor-asked", shop=member.shop.name)
    if _end(user):
        _record(user, "second factor off")


@transaction.atomic
def switch_off_for(*, actor: Actor, member: Member) -> None:
    """Switches the second factor of a member off. Refused for a person whom another shop knows too."""
    if is_known_elsewhere(actor, member.user):
        raise RequestError(409, "second-factor-of-several")
    if _end(member.user):
        record(actor=actor, verb="second factor off", row=member)


@transaction.atomic
def switch_off_by_command(*, shop: Shop, email: str) -> bool:
    """Switches the second factor of a member off by a command on the server; False where there is none."""
    member = Member.objects.filter(shop=shop, user__email=email.lower(), active=True).select_related("user").first()
    if member is None or not _end(member.user):
        return False
    record(actor=Actor(shop=shop, member=None, channel="command"), verb="second factor off", row=member)
    return True


@transaction.atomic
def ask_of(*, actor: Actor, whom: str) -> Shop:
    """Sets which members must have a second factor. The manager who sets it must have one, or would be locked out."""
    shop = Shop.objects.select_for_update().get(pk=actor.shop.pk)
    before = shop.second_factor
    if whom != Shop.SecondFactor.NOBODY and (actor.member is None or not actor.member.user.second_factor_since):
        raise RequestError(409, "second-factor-first-own")
    if whom != before:
        shop.second_factor = whom
        shop.save(update_fields=["second_factor"])
        record(actor=actor, verb="changed", row=shop, changes={"second_factor": [before, whom]})
    return shop


def recovery_codes_left(user: User) -> int:
    return RecoveryCode.objects.filter(user=user, used_at__isnull=True).count()


def _matches(user: User, code: str, now: datetime) -> bool:
    """Whether the authenticator has this code now. Its step is used up by compare-and-set."""
    row = Authenticator.objects.filter(user=user).first()
    if row is None:
        return False
    step = matching_step(unsealed(row.sealed, row.pk), code, now, after=row.last_step)
    if step is None:
        return False
    return Authenticator.objects.filter(pk=row.pk, last_step__lt=step).update(last_step=step) == 1


def _end(user: User) -> bool:
    person = _locked(user)
    was_on = person.second_factor_since is not None
    Authenticator.objects.filter(user=user).delete()
    RecoveryCode.objects.filter(user=user).delete()
    person.second_factor_since = user.second_factor_since = None
    person.save(update_fields=["second_factor_since"])
    return was_on


def _locked(user: User) -> User:
    row: User = User.objects.select_for_update().get(pk=user.pk)
    return row


def _record(user: User, verb: str) -> None:
    for member in Member.objects.filter(user=user, active=True).select_related("shop"):
        record(actor=Actor(shop=member.shop, member=member), verb=verb, row=member)
