"""Rows as the API shows them. Pure shaping: whoever calls has loaded what is needed."""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import Any

from msgspec.structs import asdict

from shop.answers.base import from_kept, utc
from shop.answers.customers import CustomerOut
from shop.answers.explained import ExplainedOut
from shop.answers.jobs import FollowUpOut, JobOperationOut, JobOut, JobRowOut, TorqueOut, ValueKind
from shop.answers.vehicles import VehicleOut, VinCheckOut
from shop.calc.vin import check_vin
from shop.models import Customer, JobOperation, Vehicle
from shop.models.jobs import JobState
from shop.presenters.vin import vin_explained
from shop.words import knows, say


def iso(instant: datetime | None) -> str | None:
    """RFC 3339 in UTC with Z: how every answer spells an instant."""
    return None if instant is None else instant.astimezone(UTC).isoformat().replace("+00:00", "Z")


def vehicle_answer(vehicle: Vehicle, market: str) -> VehicleOut:
    """`market`: the shop's, by which the VIN is checked."""
    return VehicleOut(
        id=vehicle.pk,
        title=vehicle.title,
        customer=vehicle.customer_id,
        customer_name=vehicle.customer.name if vehicle.customer else None,
        vin=vehicle.vin,
        vin_tail=vehicle.vin[-6:],
        plate=vehicle.plate,
        attributes=vehicle.attributes,
        capacities=vehicle.capacities,
        version=vehicle.version,
        vin_check=vin_answer(vehicle.vin, market) if vehicle.vin else None,
    )


def vin_answer(vin: str, market: str) -> VinCheckOut:
    found = check_vin(vin, market or None)
    key = "vin.suggested" if found.suggestion else f"vin.{found.status}"
    return VinCheckOut(
        status=found.status,
        suggestion=found.suggestion,
        words=say(key, suggestion=found.suggestion),
        how=vin_explained(found),
    )


def customer_answer(customer: Customer, market: str) -> CustomerOut:
    return CustomerOut(
        id=customer.pk,
        name=customer.name,
        phone=customer.phone,
        email=customer.email,
        address=customer.address,
        version=customer.version,
        vehicles=[vehicle_answer(each, market) for each in customer.vehicles.all()],
    )


def job_answer(job: Any, operations: Sequence[JobOperation], notices: Sequence[str]) -> JobOut:
    """A job with its work in order, and of the vehicle what the work asks for; `notices` stand above all of it."""
    return JobOut(
        **asdict(job_row(job)),
        here=job.here,
        here_from=job.here_from,
        vin_tail=job.vehicle.vin[-6:],
        attributes=job.vehicle.attributes,
        capacities=job.vehicle.capacities,
        operations=[_job_operation(each) for each in operations],
        follow_ups=_follow_ups(operations),
        notices=list(notices),
    )


def _follow_ups(operations: Iterable[JobOperation]) -> list[FollowUpOut]:
    """Work that is still to be done after hand-over, as it was sold."""
    distances = dict.fromkeys(each.sheet["wheel_check"] for each in operations if "wheel_check" in each.sheet)
    return [FollowUpOut(code="wheel_check", words=say("job.wheel_check", distance=each)) for each in distances]


def job_row(job: Any) -> JobRowOut:
    return JobRowOut(
        id=job.pk,
        number=str(job),
        state=JobState(job.state),
        customer=job.customer.name,
        vehicle=job.vehicle.title,
        plate=job.vehicle.plate,
        hours=f"{job.quoted or 0:.1f}",
        opened_at=utc(job.opened_at),
    )


def _value(value: dict[str, str]) -> TorqueOut:
    kind: ValueKind = "other" if value.get("kind") == "other" else "torque"
    return TorqueOut(fastener=value["fastener"], value=value["value"], kind=kind)


def _job_operation(operation: JobOperation) -> JobOperationOut:
    sheet = operation.sheet
    how = sheet.get("how")
    return JobOperationOut(
        position=operation.position,
        code=operation.code,
        title=operation.title,
        hours=f"{operation.quoted_hours:.1f}",
        skill=sheet.get("skill", ""),
        stage=sheet.get("stage", ""),
        after=sheet.get("after", []),
        wait_after=sheet.get("wait_after", 0),
        no_return=sheet.get("no_return", False),
        mobile_again=sheet.get("mobile_again", False),
        hold_point=sheet.get("hold_point", False),
        cautions=sheet.get("cautions", []),
        torques=[_value(each) for each in sheet.get("torques", ())],
        kits=sheet.get("kits", []),
        kit_titles=sheet.get("kit_titles", []),
        why=sheet.get("why", []),
        how=from_kept(how, ExplainedOut) if how else None,
    )


def attribute_words(attribute: str) -> str:
    """'gearbox' for transmission; the identifier itself, as people read it, where there is no word of its own."""
    return say(key) if knows(key := f"attribute.{attribute}") else attribute.replace("_", " ")
