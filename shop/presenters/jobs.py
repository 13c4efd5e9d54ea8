"""Jobs and their steps as answers. The caller has loaded the rows that they show."""

from collections.abc import Iterable, Sequence
from typing import Any

from msgspec.structs import asdict

from shop.answers.base import from_kept, utc
from shop.answers.explained import ExplainedOut
from shop.answers.jobs import FollowUpOut, JobOperationOut, JobOut, JobRowOut, TorqueOut
from shop.models import JobOperation
from shop.models.cautions import ValueKind
from shop.models.jobs import JobState
from shop.words import say


def job_answer(job: Any, operations: Sequence[JobOperation], notices: Sequence[str]) -> JobOut:
    """A job with its work in order, and the facts of the vehicle that the work needs; `notices` stand above them.

    The operations come with their cautions and required values (`shop.queries.steps.steps_to_work_from`).
    """
    return JobOut(
        **asdict(job_row(job)),
        here=job.here,
        here_from=job.here_from,
        in_bay_on=job.in_bay_on,
        odometer_in=job.odometer_in,
        handed_over_on=job.handed_over_on,
        odometer_out=job.odometer_out,
        called_off_on=job.called_off_on,
        called_off_reason=job.called_off_reason,
        vin_tail=job.vehicle.vin[-6:],
        attributes=job.vehicle.attributes,
        capacities=job.vehicle.capacities,
        operations=[_job_operation(operation, place) for place, operation in enumerate(operations, start=1)],
        follow_ups=_follow_ups(operations),
        notices=list(notices),
    )


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


def _follow_ups(operations: Iterable[JobOperation]) -> list[FollowUpOut]:
    """Work that is still to be done after hand-over, as it was sold."""
    sheets = [operation.sheet for operation in operations]
    distances = dict.fromkeys(sheet["wheel_check"] for sheet in sheets if "wheel_check" in sheet)
    return [FollowUpOut(code="wheel_check", words=say("job.wheel_check", distance=distance)) for distance in distances]


def _job_operation(operation: JobOperation, place: int) -> JobOperationOut:
    sheet = operation.sheet
    how = sheet.get("how")
    return JobOperationOut(
        id=operation.pk,
        position=place,
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
        cautions=[caution.text for caution in operation.cautions.all()],
        torques=[
            TorqueOut(fastener=value.fastener, value=value.value, kind=ValueKind(value.kind))
            for value in operation.required_values.all()
        ],
        kits=sheet.get("kits", []),
        kit_titles=sheet.get("kit_titles", []),
        why=sheet.get("why", []),
        how=from_kept(how, ExplainedOut) if how else None,
        added=operation.origin.number > 1,
        done_at=utc(operation.done_at) if operation.done_at else None,
        done_by=operation.done_by.user.name if operation.done_by else "",
    )
