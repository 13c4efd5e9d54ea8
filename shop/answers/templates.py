"""Labour templates: the order of the work of a kit, one version a row. Texts are those of a file of labour."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact


class TemplateRowOut(Answer, frozen=True):
    """The newest version of a template in the list."""

    id: UUID
    code: str
    number: Annotated[int, Meta(description="The number of the version.")]
    steps: Annotated[int, Meta(description="The number of its steps.")]
    hours: Annotated[Exact, Meta(description="Hours of all steps together.")]
    archived: Annotated[bool, Meta(description="It is kept, and no longer offered.")]


class StepOverlapOut(Answer, frozen=True):
    """An operation that overlaps with the one of a step."""

    operation: Annotated[str, Meta(description="The code of the other operation.")]
    hours: Annotated[Exact, Meta(description="The hours that both together save.")]


class TemplateStepOut(Answer, frozen=True):
    """A step of a template."""

    operation: Annotated[str, Meta(description="The code of the operation.")]
    operation_id: Annotated[UUID, Meta(description="The id of the operation.")]
    title: str
    hours: Exact
    stage: Annotated[str, Meta(description="The stage of the fitting; empty for none.")]
    after: Annotated[list[str], Meta(description="Codes of the steps that it waits for; none: it can begin at once.")]
    when: Annotated[str, Meta(description="The vehicles that it is for, such as drive=all; empty for every vehicle.")]
    includes: Annotated[list[str], Meta(description="Codes of the operations whose work is part of its own.")]
    overlaps: Annotated[
        list[StepOverlapOut], Meta(description="Operations that it overlaps with; a pair stands with one of the two.")
    ]


class TemplateVersionOut(Answer, frozen=True):
    """A version of a template."""

    id: UUID
    number: Annotated[int, Meta(description="The number of the version.")]


class TemplateOut(Answer, frozen=True):
    """One version of a template."""

    id: UUID
    code: str
    number: Annotated[int, Meta(description="The number of the version.")]
    newest: Annotated[bool, Meta(description="A change begins from it, and the next list of a kit takes it.")]
    hours: Annotated[Exact, Meta(description="Hours of all steps together.")]
    steps: Annotated[list[TemplateStepOut], Meta(description="In the order of the work.")]
    archived: Annotated[bool, Meta(description="The template is kept in all its versions, and no longer offered.")]
    kits: Annotated[int, Meta(description="The number of kits whose newest version uses any version of it.")]
    changes: Annotated[list[str], Meta(description="Differences from the version before, as sentences.")]
    versions: Annotated[list[TemplateVersionOut], Meta(description="All versions, the newest first.")]
