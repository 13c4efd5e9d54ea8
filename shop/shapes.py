"""Rows as the API shows them. Pure shaping: whoever calls has loaded what is needed."""

from datetime import datetime
from typing import Any

from shop.calc.vin import check_vin
from shop.models import Customer, Vehicle
from shop.words import say


def iso(instant: datetime | None) -> str | None:
    """RFC 3339 in UTC."""
    return None if instant is None else instant.isoformat().replace("+00:00", "Z")


def vehicle_shape(vehicle: Vehicle) -> dict[str, Any]:
    return {
        "id": str(vehicle.pk),
        "title": vehicle.title,
        "customer": str(vehicle.customer_id) if vehicle.customer_id else None,
        "customer_name": vehicle.customer.name if vehicle.customer else None,
        "vin": vehicle.vin,
        "vin_tail": vehicle.vin[-6:],
        "plate": vehicle.plate,
        "attributes": vehicle.attributes,
        "capacities": vehicle.capacities,
        "version": vehicle.version,
        "vin_check": vin_shape(vehicle.vin) if vehicle.vin else None,
    }


def vin_shape(vin: str) -> dict[str, Any]:
    found = check_vin(vin)
    key = "vin.suggested" if found.suggestion else f"vin.{found.status}"
    return {
        "status": str(found.status),
        "suggestion": found.suggestion,
        "words": say(key, suggestion=found.suggestion),
    }


def customer_shape(customer: Customer) -> dict[str, Any]:
    return {
        "id": str(customer.pk),
        "name": customer.name,
        "phone": customer.phone,
        "email": customer.email,
        "version": customer.version,
        "vehicles": [vehicle_shape(each) for each in customer.vehicles.all()],
    }
