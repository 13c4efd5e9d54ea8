"""The outside work of jobs, with its log."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from kitting.calc.outside_log import (
    EventKind,
    OutsideLogEntry,
    OutsideProgress,
    outside_progress,
    standing_entries,
)
from kitting.models import OutsideEvent
from shop.calc.outside import PlannedOutsideWork, outside_from
from shop.models import Job, JobOperation, Shop
from shop.queries.steps import standing_steps, steps_in_order

TakenOffReader = Callable[[Job], Collection[str]]
_readers: list[TakenOffReader] = []


def register_taken_off(reader: TakenOffReader) -> None:
    """Adds a reader of the codes of work that accepted changes take off a job: agreements are above this app."""
    _readers.append(reader)


@dataclass(frozen=True, slots=True)
class JobOutside:
    """A piece of a job's outside work with its log, the first entry first. `they_need` is empty on older jobs."""

    work: PlannedOutsideWork
    they_need: str
    log: tuple[OutsideEvent, ...]

    @property
    def progress(self) -> OutsideProgress:
        return progress_of(self.log)

    @property
    def last(self) -> OutsideEvent | None:
        """The last entry that holds: the only one that can be undone."""
        standing = standing_entries(_entries(self.log))
        return next(row for row in self.log if row.pk == standing[-1].id) if standing else None


def outside_of_steps(steps: Iterable[JobOperation]) -> Iterable[Mapping[str, Any]]:
    """The outside work that the sheets of the steps hold."""
    return (work for step in steps for work in step.sheet.get("outside", ()))


def job_outside(job: Job, steps: Sequence[JobOperation] | None = None) -> list[JobOutside]:
    """The outside work of the job's standing steps, in the order of the steps. Up to three queries, and one for steps.

    Work that a change took off is left out, unless the firm has it: then it still has to come back.
    """
    steps = steps_in_order(standing_steps(job.shop_id, job)) if steps is None else steps
    planned = list(outside_of_steps(steps))
    if not planned:
        return []
    logs = outside_logs(job.shop_id, [job.pk])[job.pk]
    gone = {code for reader in _readers for code in reader(job)}
    pieces = [
        JobOutside(outside_from(work), work.get("they_need", ""), tuple(logs.get(work["code"], ()))) for work in planned
    ]
    return [piece for piece in pieces if piece.work.code not in gone or piece.progress.state == "sent"]


def outside_logs(shop: Shop | UUID, jobs: Iterable[UUID]) -> Mapping[UUID, Mapping[str, Sequence[OutsideEvent]]]:
    """Maps each job to the logs of its outside work by code, the first entry first. One query."""
    logs: dict[UUID, dict[str, list[OutsideEvent]]] = defaultdict(lambda: defaultdict(list))
    rows = OutsideEvent.objects.filter(shop=shop, job__in=list(jobs)).select_related("recorded_by__user")
    for row in rows.order_by("recorded_at", "id"):
        logs[row.job_id][row.work].append(row)
    return logs


def progress_of(log: Iterable[OutsideEvent]) -> OutsideProgress:
    return outside_progress(_entries(log))


def _entries(log: Iterable[OutsideEvent]) -> list[OutsideLogEntry]:
    return [OutsideLogEntry(_kind(row), row.happened_on, row.expected_on, row.pk) for row in log]


def _kind(row: OutsideEvent) -> EventKind:
    kinds: dict[str, EventKind] = {"sent": "sent", "asked": "asked", "back": "back", "undone": "undone"}
    return kinds[row.kind]
