"""Jobs and their work. No price and no cost: a technician reads them."""

from datetime import date
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant
from shop.answers.explained import ExplainedOut
from shop.models.cautions import ValueKind
from shop.models.jobs import JobState


class JobRowOut(Answer, frozen=True):
    """A job in a list of them."""

    id: UUID
    number: Annotated[str, Meta(description="The job's number.")]
    state: JobState
    customer: str
    vehicle: str
    plate: str
    hours: Annotated[Exact, Meta(description="As sold.")]
    opened_at: Instant


class TorqueOut(Answer, frozen=True):
    """A value of the manufacturer's that the work has to keep."""

    fastener: Annotated[str, Meta(description="The fastener; for the kind other, what is measured.")]
    value: Annotated[str, Meta(description="The value with its unit.")]
    kind: Annotated[ValueKind, Meta(description="other: a run-out, a pressure or a height.")]


class JobOperationOut(Answer, frozen=True):
    """One step of the job, as it was sold."""

    id: UUID
    position: int
    code: str
    title: str
    hours: Exact
    skill: str
    stage: Annotated[str, Meta(description="The install stage, or empty.")]
    after: Annotated[list[str], Meta(description="The codes of the steps that have to be done before it.")]
    wait_after: Annotated[int, Meta(description="Minutes.")]
    no_return: bool
    mobile_again: bool
    hold_point: Annotated[bool, Meta(description="Someone else has to look at the work before it goes on.")]
    cautions: Annotated[list[str], Meta(description="A danger to people or to the vehicle.")]
    torques: Annotated[list[TorqueOut], Meta(description="Values that the work has to keep.")]
    kits: Annotated[list[str], Meta(description="The codes of the kits that it is for.")]
    kit_titles: Annotated[list[str], Meta(description="The titles of the kits that it is for.")]
    why: Annotated[list[str], Meta(description="The steps by which its hours were worked out.")]
    how: Annotated[ExplainedOut | None, Meta(description="Null where it was sold before this was kept.")]
    added: Annotated[bool, Meta(description="A change to the job added it.")]
    done_at: Annotated[Instant | None, Meta(description="The time at which it was marked as done; null if it is not.")]
    done_by: Annotated[str, Meta(description="The name of the person who marked it as done; empty if it is not.")]


class FollowUpOut(Answer, frozen=True):
    """Work that is still to be done after hand-over."""

    code: Annotated[Literal["wheel_check"], Meta(description="The code of the work.")]
    words: str


class JobOut(JobRowOut, frozen=True):
    """A job with its work in order, and of the vehicle what the work asks for."""

    here: Annotated[bool, Meta(description="The vehicle is here already.")]
    here_from: Annotated[date | None, Meta(description="The day it comes, where that was recorded.")]
    in_bay_on: Annotated[date | None, Meta(description="The day on which work on the vehicle began.")]
    odometer_in: Annotated[int | None, Meta(description="The reading as work began; null where it was not taken.")]
    handed_over_on: Annotated[date | None, Meta(description="The day on which the customer got the vehicle back.")]
    odometer_out: Annotated[int | None, Meta(description="The reading at hand-over; null where it was not taken.")]
    called_off_on: Annotated[date | None, Meta(description="The day on which the job was called off.")]
    called_off_reason: Annotated[
        str, Meta(description="The reason for which it was called off; empty where it was not.")
    ]
    vin_tail: Annotated[str, Meta(description="The last six characters of the VIN.")]
    attributes: dict[str, str]
    capacities: Annotated[dict[str, Exact], Meta(description="Litres by circuit.")]
    operations: Annotated[list[JobOperationOut], Meta(description="In the order of the work.")]
    follow_ups: Annotated[list[FollowUpOut], Meta(description="Work after hand-over.")]
    notices: Annotated[list[str], Meta(description="They stand above all of the work.")]
