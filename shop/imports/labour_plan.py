"""An imported list of labour: operations, and templates with their steps."""

from dataclasses import dataclass
from decimal import Decimal

from shop.tables.conditions import Condition
from shop.tables.engine import ParsedRow


@dataclass(frozen=True, slots=True)
class ImportedOperation:
    """An operation as the file states it."""

    code: str
    title: str
    skill: str
    hours: Decimal
    sharing: str
    flags: tuple[bool, ...]  # in the order of FLAGS
    wait_after: int
    includes: tuple[str, ...]
    overlaps: tuple[tuple[str, Decimal], ...]
    cautions: tuple[str, ...]
    torques: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...]  # measured values that are not torques: run-out, pressures, heights
    row: ParsedRow

    @property
    def required_values(self) -> tuple[tuple[str, str, str], ...]:
        """(kind, fastener, value) of each value that the work has to keep, torque values first."""
        torques = (("torque", *torque) for torque in self.torques)
        return (*torques, *(("other", *value) for value in self.others))


@dataclass(frozen=True, slots=True)
class ImportedStep:
    """A step of a template as the file states it."""

    operation: str
    hours: Decimal | None  # None: those of the operation
    stage: str
    after: tuple[str, ...]
    when: tuple[Condition, ...]
    row: ParsedRow


@dataclass(frozen=True, slots=True)
class LabourPlan:
    """The operations of the file, and its templates as (code, steps)."""

    operations: tuple[ImportedOperation, ...]
    templates: tuple[tuple[str, tuple[ImportedStep, ...]], ...]
