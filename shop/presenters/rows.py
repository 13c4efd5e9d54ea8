"""Rows as the API shows them. Pure shaping: whoever calls has loaded what is needed."""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import Any

from shop.calc.vin import check_vin
from shop.models import Customer, JobOperation, Vehicle
from shop.presenters.vin import vin_explained
from shop.words import knows, say


def iso(instant: datetime | None) -> str | None:
    """RFC 3339 in UTC with Z: how every answer spells an instant."""
    return None if instant is None else instant.astimezone(UTC).isoformat().replace("+00:00", "Z")


def vehicle_shape(vehicle: Vehicle, market: str) -> dict[str, Any]:
    """`market`: the shop's, by which the VIN is checked."""
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
        "vin_check": vin_shape(vehicle.vin, market) if vehicle.vin else None,
    }


def vin_shape(vin: str, market: str) -> dict[str, Any]:
    found = check_vin(vin, market or None)
    key = "vin.suggested" if found.suggestion else f"vin.{found.status}"
    return {
        "status": str(found.status),
        "suggestion": found.suggestion,
        "words": say(key, suggestion=found.suggestion),
        "how": vin_explained(found),
    }


def customer_shape(customer: Customer, market: str) -> dict[str, Any]:
    return {
        "id": str(customer.pk),
        "name": customer.name,
        "phone": customer.phone,
        "email": customer.email,
        "address": customer.address,
        "version": customer.version,
        "vehicles": [vehicle_shape(each, market) for each in customer.vehicles.all()],
    }


def job_shape(job: Any, operations: Sequence[JobOperation], notices: Sequence[str]) -> dict[str, Any]:
    """A job with its work in order, and of the vehicle what the work asks for; `notices` stand above all of it."""
    return job_row_shape(job) | {
        "here": job.here,
        "here_from": job.here_from.isoformat() if job.here_from else None,
        "vin_tail": job.vehicle.vin[-6:],
        "attributes": job.vehicle.attributes,
        "capacities": job.vehicle.capacities,
        "operations": [_job_operation(each) for each in operations],
        "follow_ups": _follow_ups(operations),
        "notices": list(notices),
    }


def _follow_ups(operations: Iterable[JobOperation]) -> list[dict[str, str]]:
    """Work that is still to be done after hand-over, as it was sold."""
    distances = dict.fromkeys(each.sheet["wheel_check"] for each in operations if "wheel_check" in each.sheet)
    return [{"code": "wheel_check", "words": say("job.wheel_check", distance=each)} for each in distances]


def job_row_shape(job: Any) -> dict[str, Any]:
    return {
        "id": str(job.pk),
        "number": str(job),
        "state": job.state,
        "customer": job.customer.name,
        "vehicle": job.vehicle.title,
        "plate": job.vehicle.plate,
        "hours": f"{job.quoted or 0:.1f}",
        "opened_at": iso(job.opened_at),
    }


def _value(value: dict[str, str]) -> dict[str, str]:
    return {"fastener": value["fastener"], "value": value["value"], "kind": value.get("kind", "torque")}


def _job_operation(operation: JobOperation) -> dict[str, Any]:
    sheet = operation.sheet
    return {
        "position": operation.position,
        "code": operation.code,
        "title": operation.title,
        "hours": f"{operation.quoted_hours:.1f}",
        "skill": sheet.get("skill", ""),
        "stage": sheet.get("stage", ""),
        "after": sheet.get("after", []),
        "wait_after": sheet.get("wait_after", 0),
        "no_return": sheet.get("no_return", False),
        "mobile_again": sheet.get("mobile_again", False),
        "hold_point": sheet.get("hold_point", False),
        "cautions": sheet.get("cautions", []),
        "torques": [_value(each) for each in sheet.get("torques", ())],
        "kits": sheet.get("kits", []),
        "kit_titles": sheet.get("kit_titles", []),
        "why": sheet.get("why", []),
        "how": sheet.get("how"),
    }


def attribute_words(attribute: str) -> str:
    """'gearbox' for transmission; the identifier itself, as people read it, where there is no word of its own."""
    return say(key) if knows(key := f"attribute.{attribute}") else attribute.replace("_", " ")
