"""The differences of two versions of a labour template."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Change = Literal["added", "removed", "hours", "stage", "after", "when", "order"]


@dataclass(frozen=True, slots=True)
class OrderedStep:
    """A step as a version has it. `when` is the text of its conditions."""

    operation: str
    hours: Decimal
    stage: str
    after: tuple[str, ...]
    when: str


@dataclass(frozen=True, slots=True)
class StepChange:
    """A difference at a step. `before` and `after` are None where the step is new or gone; for `order` both are
    codes of the step that stands above it, None for the first."""

    code: Change
    operation: str
    before: object = None
    after: object = None


def template_changes(before: Sequence[OrderedStep], after: Sequence[OrderedStep]) -> tuple[StepChange, ...]:
    """Steps that came, that went, and that changed, in the order of the newer version.

    A step has moved if its place among the steps of both versions follows another one than before.
    """
    old = {step.operation: step for step in before}
    new = {step.operation: step for step in after}
    changes = [StepChange("removed", code) for code in old if code not in new]
    above_before = _above([code for code in old if code in new])
    above_after = _above([code for code in new if code in old])
    for code, step in new.items():
        if code not in old:
            changes.append(StepChange("added", code))
            continue
        was = old[code]
        if was.hours != step.hours:
            changes.append(StepChange("hours", code, was.hours, step.hours))
        if was.stage != step.stage:
            changes.append(StepChange("stage", code, was.stage, step.stage))
        if set(was.after) != set(step.after):
            changes.append(StepChange("after", code, was.after, step.after))
        if was.when != step.when:
            changes.append(StepChange("when", code, was.when, step.when))
        if above_before[code] != above_after[code]:
            changes.append(StepChange("order", code, above_before[code], above_after[code]))
    return tuple(changes)


def _above(codes: Sequence[str]) -> dict[str, str | None]:
    return {code: codes[at - 1] if at else None for at, code in enumerate(codes)}
