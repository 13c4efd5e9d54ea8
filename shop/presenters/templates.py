"""Labour templates as answers: steps with their predecessors, and differences in words."""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from shop.access import Actor
from shop.answers.templates import StepOverlapOut, TemplateOut, TemplateRowOut, TemplateStepOut, TemplateVersionOut
from shop.calc.quantity import plain
from shop.calc.template_changes import StepChange, template_changes
from shop.models import LabourTemplate, OperationPair, TemplateStep
from shop.queries.templates import conditions_text, kits_using, ordered, pairs_among, steps_of, versions_of
from shop.words import say
from shop.words.figures import figure


def template_row(row: Any) -> TemplateRowOut:
    """A row of `newest_templates`."""
    hours = row.step_hours or Decimal(0)
    return TemplateRowOut(
        id=row.pk, code=row.code, number=row.number, steps=row.step_count, hours=f"{hours:f}", archived=row.archived
    )


def template_answer(row: LabourTemplate, actor: Actor) -> TemplateOut:
    versions, steps = versions_of(row), steps_of(row)
    pairs = pairs_among(actor, steps)
    before = next((version for version in versions if version.number < row.number), None)
    changes = template_changes(ordered(steps_of(before)), ordered(steps)) if before else ()
    return TemplateOut(
        id=row.pk,
        code=row.code,
        number=row.number,
        newest=versions[0].pk == row.pk,
        hours=f"{sum((step.hours for step in steps), Decimal(0)):f}",
        steps=[_step(step, pairs) for step in steps],
        archived=versions[0].archived,
        kits=kits_using(row),
        changes=[_change(change) for change in changes],
        versions=[TemplateVersionOut(id=version.pk, number=version.number) for version in versions],
    )


def _step(step: TemplateStep, pairs: Iterable[OperationPair]) -> TemplateStepOut:
    own = [pair for pair in pairs if pair.operation_id == step.operation_id]
    return TemplateStepOut(
        operation=step.operation.code,
        operation_id=step.operation_id,
        title=step.operation.title,
        hours=f"{step.hours:f}",
        stage=step.stage,
        after=list(step.after),
        when=conditions_text(step.conditions),
        includes=[pair.other.code for pair in own if pair.kind == OperationPair.Kind.INCLUDES],
        overlaps=[
            StepOverlapOut(operation=pair.other.code, hours=f"{pair.hours:f}") for pair in own if pair.hours is not None
        ],
    )


def _change(change: StepChange) -> str:
    return say(
        f"template.change.{change.code}",
        operation=change.operation,
        before=_side(change.before),
        after=_side(change.after),
    )


def _side(value: object) -> str:
    if isinstance(value, Decimal):
        return figure(plain(value))
    if isinstance(value, Sequence) and not isinstance(value, str):
        value = ", ".join(str(code) for code in value)
    return str(value or "") or say("template.nothing")
