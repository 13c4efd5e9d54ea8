"""Shops and the people in them."""

from django.contrib.auth.password_validation import validate_password
from django.db import transaction

from shop.calc.money import decimals_of
from shop.models import Member, Shop, User


@transaction.atomic
def open_shop(
    *,
    slug: str,
    name: str,
    currency: str,
    zone: str,
    exponent: int | None = None,
    units: str = "metric",
    phone: str = "",
) -> tuple[Shop, bool]:
    """A new shop, or the same one with these facts; (shop, whether it is new). Slug and currency never change.

    `exponent`: how many decimals the currency has here; by itself what ISO 4217 says.
    """
    shop = Shop.objects.select_for_update().filter(slug=slug).first()
    new = shop is None
    if shop is None:
        shop = Shop(slug=slug, currency=currency, exponent=decimals_of(currency) if exponent is None else exponent)
    shop.name, shop.zone, shop.units, shop.phone = name, zone, units, phone
    shop.full_clean()
    shop.save()
    return shop, new


@transaction.atomic
def set_member(*, shop: Shop, email: str, name: str, role: str, password: str | None) -> tuple[Member, bool]:
    """The person as a member of the shop with that role; (member, whether new). A password is set only when given."""
    user = User.objects.filter(email=email.lower()).first() or User(email=email.lower())
    user.name = name
    if password is not None:
        validate_password(password, user)
        user.set_password(password)
    elif not user.password:
        user.set_unusable_password()
    user.full_clean()
    user.save()
    member = Member.objects.filter(shop=shop, user=user).first()
    new = member is None
    member = member or Member(shop=shop, user=user)
    member.role, member.active = role, True
    member.clean_fields()
    member.save()
    return member, new
