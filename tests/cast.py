"""The fixed cast: advisor, parts, technician, manager of one shop, and a stranger from another."""

from dataclasses import dataclass

from django.conf import settings
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY

from shop.access import Actor
from shop.models import Member, Shop, User
from shop.sessions import SessionStore
from tests.client import CheckedClient
from tests.prepared import prepared

PASSWORD = "bolts-and-washers"


@dataclass
class Cast:
    shop: Shop
    elsewhere: Shop
    advisor: Member
    parts: Member
    technician: Member
    manager: Member
    stranger: Member  # a manager, but of the other shop

    def signed_in(self, role: str) -> CheckedClient:
        """A client of that member of the cast, on a device of its own."""
        client = CheckedClient(shop=self.shop.slug)
        client.cookies[settings.SESSION_COOKIE_NAME] = new_session(getattr(self, role).user)
        return client

    def acting(self, role: str) -> Actor:
        member = getattr(self, role)
        return Actor(shop=member.shop, member=member)


def new_session(user: User) -> str:
    """The key of a session as signing in makes it, in one statement where signing in takes six."""
    session = SessionStore()
    session.update({SESSION_KEY: str(user.pk), BACKEND_SESSION_KEY: settings.AUTHENTICATION_BACKENDS[0]})
    session[HASH_SESSION_KEY] = user.get_session_auth_hash()
    session.create()
    return str(session.session_key)


def make_cast() -> Cast:
    return prepared(_make_cast)


def _make_cast() -> Cast:
    shop = make_shop("saltmarsh", "Saltmarsh Lane Motor Works")
    elsewhere = make_shop("elsewhere", "Copper Fell Fitting")
    people = {role: make_member(shop, role) for role in Member.Role.values}
    return Cast(
        shop=shop, elsewhere=elsewhere, stranger=make_member(elsewhere, Member.Role.MANAGER, "stranger"), **people
    )


def make_shop(slug: str, name: str) -> Shop:
    return Shop.objects.create(slug=slug, name=name, currency="EUR", zone="Europe/Berlin", phone="01632 960 200")


def make_member(shop: Shop, role: str, name: str | None = None) -> Member:
    name = name or role
    user = User(email=f"{name}@{shop.slug}.example", name=name.title())
    user.set_password(PASSWORD)
    user.save()
    return Member.objects.create(shop=shop, user=user, role=role)
