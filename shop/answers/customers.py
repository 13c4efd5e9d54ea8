"""Customers."""

from uuid import UUID

from shop.answers.base import Answer
from shop.answers.vehicles import VehicleOut


class CustomerOut(Answer, frozen=True):
    """A customer with their vehicles."""

    id: UUID
    name: str
    phone: str
    email: str
    address: str
    version: int
    vehicles: list[VehicleOut]
