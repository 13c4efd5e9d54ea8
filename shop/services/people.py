"""Shops and the people in them."""

from typing import Any

from django.db import transaction
from django.utils import timezone

from shop.access import Actor
from shop.calc.money import decimals_of
from shop.models import Member, OpeningCode, Shop, User
from shop.services import members
from shop.services.history import record
from shop.services.passwords import check_password
from shop.services.sessions import end_sessions


@transaction.atomic
def open_shop(
    *,
    slug: str,
    name: str,
    currency: str,
    zone: str,
    exponent: int | None = None,
    units: str = "metric",
    language: str = "en-GB",
    market: str = "",
    phone: str = "",
    address: str = "",
    email: str = "",
    registration: str = "",
    tax_number: str = "",
) -> tuple[Shop, bool]:
    """Adds or updates a shop; (shop, whether it is new). Slug and currency never change.

    `exponent` is the number of the currency's decimals; by default that of ISO 4217.
    """
    shop = Shop.objects.select_for_update().filter(slug=slug).first()
    new = shop is None
    if shop is None:
        OpeningCode.objects.all().delete()  # waits for whoever opens the first shop at this moment, and ends its code
        shop = Shop(slug=slug, currency=currency, exponent=decimals_of(currency) if exponent is None else exponent)
    shop.name, shop.zone, shop.units, shop.phone, shop.market = name, zone, units, phone, market
    shop.language = language
    shop.address, shop.email, shop.registration, shop.tax_number = address, email, registration, tax_number
    shop.full_clean()
    shop.save()
    return shop, new


@transaction.atomic
def set_member(*, shop: Shop, email: str, name: str, role: str, password: str | None) -> tuple[Member, bool]:
    """Makes the person a member with that role; (member, whether new). Sets the password only if one is given.

    A member who was removed becomes active again. A new password ends the person's sign-ins. The last
    manager stays one.
    """
    user = User.objects.filter(email=email.lower()).first() or User(email=email.lower())
    user.name = name
    if password is not None:
        check_password(password, user, shop)
        user.set_password(password)
        end_sessions(user=user.pk)
    elif not user.password:
        user.set_unusable_password()
    user.full_clean()
    user.save()
    member = Member.objects.filter(shop=shop, user=user).first()
    if member is not None and member.active:
        return members.change_role(actor=_by_command(shop), member=member, role=role, now=timezone.now()), False
    new = member is None
    member = member or Member(shop=shop, user=user, active=False)
    changes: dict[str, list[Any]] = {"active": [False, True], "role": [member.role or None, role]}
    member.role, member.active = role, True
    member.clean_fields()
    member.save()
    record(actor=_by_command(shop), verb="added" if new else "changed", row=member, changes=changes)
    return member, new


@transaction.atomic
def remove_member(*, shop: Shop, email: str) -> Member | None:
    """Ends the person's membership and all their sign-ins. Returns None if there is no such member."""
    member = Member.objects.filter(shop=shop, user__email=email.lower(), active=True).select_related("user").first()
    if member is not None:
        members.remove(actor=_by_command(shop), member=member, now=timezone.now())
    return member


@transaction.atomic
def change_password(*, user: User, password: str, session: str | None) -> None:
    """Sets the password and ends the person's other sign-ins. Raises ValidationError for a refused password."""
    check_password(password, user)
    user.set_password(password)
    user.save(update_fields=["password"])
    end_sessions(user=user.pk, keep=session)
    for member in Member.objects.filter(user=user, active=True).select_related("shop"):
        record(actor=Actor(shop=member.shop, member=member), verb="password changed", row=member)


def _by_command(shop: Shop) -> Actor:
    return Actor(shop=shop, member=None, channel="command")
