"""(actor, id) -> row or 404. The only way a view gets a row; another shop's row is not there."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, TypeVar
from uuid import UUID

from django.db.models import Sum
from django.http import Http404
from django.shortcuts import get_object_or_404
from rest_framework.exceptions import NotAuthenticated, PermissionDenied

from shop.models import Customer, FileRead, Job, Member, RuleSet, Shop, Vehicle
from shop.rows import ShopRow

Row = TypeVar("Row", bound=ShopRow)

ADVISOR, PARTS, TECHNICIAN, MANAGER = Member.Role.values
EVERYONE = frozenset(Member.Role.values)
COUNTER = frozenset({ADVISOR, MANAGER})
STORES = frozenset({ADVISOR, PARTS, MANAGER})
OFFICE = frozenset({MANAGER})
# Outside a shop nobody has a role: an endpoint there is for anyone, or for whoever is signed in.
ANYONE = frozenset({"anyone"})
SIGNED_IN = frozenset({"signed in"})


@dataclass(frozen=True, slots=True)
class Actor:
    """Who acts: a member in a shop, or nobody (the customer's link, a command line)."""

    shop: Shop
    member: Member | None
    via: str = "session"

    @property
    def role(self) -> str:
        return self.member.role if self.member else ""


def signed_in(user: Any) -> None:
    """401 unless this is a person who is signed in."""
    if user is None or not user.is_authenticated or not user.is_active:
        raise NotAuthenticated


def actor(user: Any, slug: str, allowed: Iterable[str]) -> Actor:
    """The signed-in person as a member of the shop: 401 signed out, 404 a stranger, 403 another role's business."""
    signed_in(user)
    members = Member.objects.select_related("shop")
    member = get_object_or_404(members, shop__slug=slug, user_id=user.pk, active=True)
    if member.role not in allowed:
        raise PermissionDenied
    return Actor(shop=member.shop, member=member)


def one(model: type[Row], who: Actor, id: UUID | str, *related: str) -> Row:
    """The shop's own row, or 404."""
    found = model._default_manager.filter(shop=who.shop)
    return get_object_or_404(found.select_related(*related) if related else found, pk=id)


def customer(who: Actor, id: UUID | str) -> Customer:
    return one(Customer, who, id)


def customers(who: Actor) -> Any:
    return Customer.objects.filter(shop=who.shop, archived=False)


def vehicle(who: Actor, id: UUID | str) -> Vehicle:
    return one(Vehicle, who, id, "customer")


def vehicles(who: Actor) -> Any:
    return Vehicle.objects.filter(shop=who.shop)


def job(who: Actor, id: UUID | str) -> Any:
    found = jobs(who).filter(pk=id).first()
    if found is None:
        raise Http404
    return found


def jobs(who: Actor) -> Any:
    """With the hours that were quoted, in all."""
    rows = Job.objects.filter(shop=who.shop).select_related("customer", "vehicle")
    return rows.annotate(quoted=Sum("operations__quoted_hours"))


def file_read(who: Actor, id: UUID | str) -> FileRead:
    return one(FileRead, who, id, "by", "by__user")


def files_read(who: Actor) -> Any:
    return FileRead.objects.filter(shop=who.shop)


def rules_on(shop: Shop, day: Any) -> RuleSet | None:
    """The house rules of a day: the newest whose day has come."""
    return RuleSet.objects.filter(shop=shop, valid_from__lte=day).order_by("-valid_from", "-number").first()
