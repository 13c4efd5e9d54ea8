"""Vehicles, and the check of a VIN."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact
from shop.answers.explained import ExplainedOut
from shop.calc.vin import VinStatus


class VinCheckOut(Answer, frozen=True):
    """The findings on a VIN. Nothing is refused."""

    status: Annotated[VinStatus, Meta(description="The findings of the check.")]
    suggestion: Annotated[str | None, Meta(description="The VIN without marks that are often mistaken.")]
    words: str
    how: ExplainedOut | None


class OwnerChangeOut(Answer, frozen=True):
    """A change of a vehicle's owner."""

    before: Annotated[str, Meta(description="The name of the owner until then; empty where none was recorded.")]
    after: Annotated[str, Meta(description="The name of the owner since then.")]
    since: Annotated[date, Meta(description="The first day of the new owner.")]
    words: str


class VehicleOut(Answer, frozen=True):
    """A vehicle."""

    id: UUID
    title: Annotated[str, Meta(description="The make and model.")]
    customer: Annotated[UUID | None, Meta(description="The id of the customer; null where none is recorded.")]
    customer_name: Annotated[str | None, Meta(description="The customer's name; null where none is recorded.")]
    vin: str
    vin_tail: Annotated[str, Meta(description="The last six characters of the VIN.")]
    plate: str
    attributes: dict[str, str]
    capacities: Annotated[dict[str, Exact], Meta(description="Litres by circuit.")]
    version: int
    vin_check: Annotated[VinCheckOut | None, Meta(description="Null where no VIN is recorded.")]
