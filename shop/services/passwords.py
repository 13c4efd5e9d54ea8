"""New passwords of people."""

from typing import Any

from django.contrib.auth.password_validation import validate_password

from shop.models import Member, Shop, User
from shop.passwords import PasswordOwner


def check_password(password: str, user: User, *shops: Shop) -> None:
    """Raises ValidationError for a refused password. `shops` are those that the person is about to join."""
    names = {shop.name for shop in shops}
    if not user._state.adding:
        names |= {member.shop.name for member in Member.objects.filter(user=user).select_related("shop")}
    owner: Any = PasswordOwner(name=user.name, email=user.email, workshops=tuple(sorted(names)))
    validate_password(password, owner)
