"""The fixed cast: advisor, parts, technician, manager of one shop, and a stranger from another."""

from dataclasses import dataclass

from shop.access import Actor
from shop.models import Member, Shop, User
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
        """A client of that member of the cast."""
        client = CheckedClient(shop=self.shop.slug)
        client.force_login(getattr(self, role).user)
        return client

    def acting(self, role: str) -> Actor:
        member = getattr(self, role)
        return Actor(shop=member.shop, member=member)


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
