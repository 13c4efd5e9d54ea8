"""Finds the shop's set of price rules in force, and those that come into force later."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from shop.access import rules_on
from shop.models import RuleSet, Shop


@dataclass(frozen=True, slots=True)
class InForce:
    """The set in force on a day, and those that come into force later."""

    today: RuleSet | None
    later: frozenset[UUID]


def in_force(shop: Shop, day: date) -> InForce:
    """Of the sets that begin on one day only the last written comes into force."""
    coming: dict[date, UUID] = {}
    rows = RuleSet.objects.filter(shop=shop, valid_from__gt=day).order_by("valid_from", "number")
    for pk, valid_from in rows.values_list("pk", "valid_from"):
        coming[valid_from] = pk
    return InForce(rules_on(shop, day), frozenset(coming.values()))
