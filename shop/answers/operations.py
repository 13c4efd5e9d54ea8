"""The shop's operations. Their texts are those of a file of labour, so that a form and a file are read alike."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact


class OperationRowOut(Answer, frozen=True):
    """An operation in the list."""

    id: UUID
    code: str
    title: str
    skill: str
    hours: Exact
    archived: Annotated[bool, Meta(description="It is kept, and no longer offered.")]
    version: int


class OperationOut(OperationRowOut, frozen=True):
    """An operation with all that a file of labour says about it."""

    sharing: Annotated[Literal["once", "each"], Meta(description="Done once for all kits of a visit, or for each kit.")]
    exposed: Annotated[bool, Meta(description="Rusted fasteners make it longer: the condition factor applies.")]
    no_return: bool
    mobile_again: bool
    hold_point: Annotated[bool, Meta(description="The work stops here until somebody has checked it.")]
    wheels_off: Annotated[bool, Meta(description="Wheels come off, so that their fasteners are checked later.")]
    wait_after: Annotated[str, Meta(description="Minutes to wait after it; empty for none.")]
    includes: Annotated[str, Meta(description="Codes of the operations that it includes, one a line.")]
    overlaps: Annotated[str, Meta(description='"CODE hours" of each operation that it overlaps with, one a line.')]
    cautions: Annotated[str, Meta(description="Cautions, one a line.")]
    torques: Annotated[str, Meta(description='"Fastener: value" of each torque, one a line.')]
    others: Annotated[str, Meta(description='"Measure: value" of each other value, one a line.')]
    templates: Annotated[list[str], Meta(description="Codes of the templates whose latest version has it.")]
    notices: Annotated[list[str], Meta(description="Whole sentences about what a person has to look at.")]
