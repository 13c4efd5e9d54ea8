"""Reads how often each line happened that a job's quotes charge only if it happens."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.db.models import Max, Prefetch, QuerySet, Sum

from quotes.calc.contingency import HappenedCharge, PriceOnce, charge_happened
from quotes.calc.forms import FrozenContent
from quotes.models import Decision, Line, Occurrence, OccurrencePhotograph
from quotes.queries import frozen
from quotes.queries.acceptances import acceptances_of
from quotes.queries.shown_photographs import newest_marks
from shop.compiled import compiled
from shop.models import Job, Shop


@dataclass(frozen=True, slots=True)
class AgreedContingency:
    """A line of an accepted text that is charged only if it happens, with what was recorded of it."""

    content: FrozenContent
    decision: Decision
    occurrences: tuple[Occurrence, ...]
    charge: HappenedCharge
    shown: frozenset[UUID] = frozenset()  # the photographs that the customer sees

    @property
    def happened(self) -> int:
        return self.charge.charged + self.charge.over


def accepted_decisions(job: Job) -> list[Decision]:
    """The acceptances of the job's quote and of its changes, in their order."""
    return _accepted_of(job.shop_id, job.pk)


@compiled
def _accepted_of(shop: UUID, job: UUID) -> QuerySet[Decision]:
    rows = acceptances_of(shop, job).order_by("agreement__number")
    return rows.select_related("quote__customer", "quote__vehicle", "revision", "recorded_by__user", "agreement")


def agreed_contingencies(job: Job, decisions: Sequence[Decision]) -> tuple[AgreedContingency, ...]:
    """The lines of these acceptances in their order, with what was recorded. One query beside the texts."""
    lines = [
        (content, decision)
        for decision in decisions
        for content in frozen.read(decision.revision)["shown"].get("contingencies", ())
    ]
    if not lines:
        return ()
    recorded: dict[str, list[Occurrence]] = {}
    rows = Occurrence.objects.filter(shop=job.shop_id, job=job).select_related("recorded_by__user")
    links = OccurrencePhotograph.objects.filter(shop=job.shop_id, job=job).order_by("id")
    for row in rows.prefetch_related(Prefetch("photographs", links)).order_by("recorded_at", "id"):
        recorded.setdefault(str(row.line_id), []).append(row)
    visible = _shown(recorded)
    return tuple(_agreed(content, decision, recorded.get(content["line"], []), visible) for content, decision in lines)


def _shown(recorded: Mapping[str, Sequence[Occurrence]]) -> frozenset[UUID]:
    rows = [row for occurrences in recorded.values() for row in occurrences]
    photographs = [link.photograph_id for row in rows for link in row.photographs.all()]
    marks = newest_marks(rows[0].shop_id, photographs) if photographs else {}
    return frozenset(id for id, mark in marks.items() if mark.shown)


def _agreed(
    content: FrozenContent, decision: Decision, occurrences: Sequence[Occurrence], visible: frozenset[UUID]
) -> AgreedContingency:
    once = PriceOnce(Decimal(content["price"]), Decimal(content["tax"]))
    charge = charge_happened([row.count for row in occurrences], content["cap"], once)
    return AgreedContingency(content, decision, tuple(occurrences), charge, visible)


@dataclass(frozen=True, slots=True)
class BeyondCap:
    """A line that happened more often than was agreed."""

    job: Job
    line: Line
    happened: int


def beyond_cap(shop: Shop, since: datetime, most: int) -> list[BeyondCap]:
    """The lines that happened more often than their cap, with a row since then, the newest first."""
    recent = Occurrence.objects.filter(shop=shop, recorded_at__gte=since).values_list("line", flat=True)
    sums = (
        Occurrence.objects.filter(shop=shop, line__in=set(recent))
        .values("job", "line")
        .annotate(happened=Sum("count"), newest=Max("recorded_at"))
        .order_by("-newest")
    )
    lines = Line.objects.filter(shop=shop).select_related("revision").in_bulk([row["line"] for row in sums])
    rows = [row for row in sums if row["happened"] > (lines[row["line"]].cap or 0)][:most]
    jobs = Job.objects.filter(shop=shop).in_bulk([row["job"] for row in rows])
    return [BeyondCap(jobs[row["job"]], lines[row["line"]], row["happened"]) for row in rows]
