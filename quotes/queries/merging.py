"""Counts what belongs to a customer's record, before it is put together with another."""

from dataclasses import dataclass

from quotes.models import Quote
from shop.models import Customer, Job, Payment, Vehicle

CONTACT = ("phone", "email", "address", "language")  # what the record that stays may lack


@dataclass(frozen=True, slots=True)
class Belongings:
    """The numbers of rows that belong to a customer, and the fields that the record that stays lacks."""

    quotes: int
    vehicles: int
    jobs: int
    payments: int
    lacking: tuple[str, ...]


def belongings(goes: Customer, stays: Customer) -> Belongings:
    """The rows of one record, and what it has that the other lacks."""
    shop = goes.shop_id
    jobs = list(Job.objects.filter(shop=shop, customer=goes).values_list("pk", flat=True))
    return Belongings(
        quotes=Quote.objects.filter(shop=shop, customer=goes, discarded_at=None).count(),
        vehicles=Vehicle.objects.filter(shop=shop, customer=goes).count(),
        jobs=len(jobs),
        payments=Payment.objects.filter(shop=shop, job__in=jobs).count(),
        lacking=lacking(goes, stays),
    )


def lacking(goes: Customer, stays: Customer) -> tuple[str, ...]:
    return tuple(name for name in CONTACT if getattr(goes, name) and not getattr(stays, name))
