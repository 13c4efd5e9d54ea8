"""Imports a supplier's packing slip: the goods on their way to a job get the day on which they arrive.

The title block names our order, whose number begins with that of the job. Nothing is counted: only people count goods.
"""

import re
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils import timezone

from kitting.calc.packing_slip import match_slip
from kitting.imports import examples
from kitting.imports.buying import UNIT
from kitting.imports.kit_headings import CARTON, DESCRIPTION, NUMBER, QUANTITY, UNIT_OF
from kitting.models import PullList
from kitting.models.parts import UNITS
from kitting.queries.packing_slips import WaitingList, waiting_list
from kitting.services.arrivals import record_due
from shop.access import Actor
from shop.calc.keys import search_key
from shop.models import FileRead
from shop.queries.calendar import opening_hours
from shop.tables.columns import Field, Table
from shop.tables.dates import day
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import quantity
from shop.tables.parsed import PlannedLine
from shop.tables.registry import register
from shop.tables.values import article, text

ORDER = re.compile(r"J-?([0-9]{1,9})(?:-[0-9]{1,4})?", re.IGNORECASE)
FURTHEST = timedelta(days=366)
LINES = Table(
    "packed",
    (
        Field("carton", CARTON, article(80)),
        Field("number", NUMBER, article(60), True, True),
        Field("title", DESCRIPTION, text(200)),
        Field("quantity", ("packed", "delivered", *QUANTITY), quantity(units=frozenset(UNITS)), True, True),
        Field("unit", UNIT_OF, UNIT),
    ),
    ("packed", "packing slip", "delivery note"),
)
TITLE = (
    Field("order", ("order", "our order", "your order", "order number", "order no", "job"), article(40)),
    Field("slip", ("packing slip", "packing slip number", "delivery note", "delivery note number"), article(80)),
    Field("supplier", ("supplier", "vendor", "from"), text(120)),
    Field("day", ("arrives", "arrives on", "delivery day", "expected on", "due"), day),
)


@dataclass(frozen=True, slots=True)
class PackedLine:
    """A line of the slip."""

    number: str
    quantity: Decimal
    unit: str
    row: ParsedRow

    @property
    def key(self) -> str:
        return search_key(self.number)


@dataclass(frozen=True, slots=True)
class SlipPlan:
    """A packing slip as the file states it; `job` is a number. `check` adds the list and its lines that arrive."""

    job: int | None
    order_at: Finding
    arrives: date | None
    arrives_at: Finding
    packed: tuple[PackedLine, ...]
    pull_list: UUID | None = None
    lines: tuple[UUID, ...] = ()


def plan(file: ParsedFile) -> ImportPreview:
    """The packing slip of the file."""
    order, arrives = file.title.get("order", ""), file.title.get("day")
    named = ORDER.fullmatch(order)
    order_at, arrives_at = file.title_place("order"), file.title_place("day")
    findings = []
    if named is None:
        findings.append(must_fix("slip_order_unknown" if order else "slip_without_order", order_at, what=order))
    if arrives is None:
        findings.append(must_fix("slip_without_day", arrives_at))
    packed = tuple(_packed(row) for row in file.of("packed") if row.get("number") and row.get("quantity"))
    return ImportPreview(
        SlipPlan(int(named[1]) if named else None, order_at, arrives, arrives_at, packed), tuple(findings)
    )


def _packed(row: ParsedRow) -> PackedLine:
    amount = row.get("quantity")
    return PackedLine(row.get("number"), amount.amount, str(row.get("unit", "")) or amount.unit or "pc", row)


def planned_lines(file: ParsedFile, plan: SlipPlan) -> tuple[PlannedLine, ...]:
    """The lines of the slip, to look at."""
    return tuple(
        PlannedLine(
            line.row,
            line.row.get("carton", ""),
            "",
            line.number,
            line.row.get("title", ""),
            f"{line.quantity.normalize():f}",
            line.unit,
            "",
        )
        for line in plan.packed
    )


def check(actor: Actor, plan: SlipPlan) -> ImportPreview:
    """Compares the slip with the goods that its job waits for."""
    if plan.job is None or plan.arrives is None:
        return ImportPreview(plan)
    waiting = waiting_list(actor, plan.job)
    if waiting is None:
        return ImportPreview(plan, (must_fix("slip_order_unknown", plan.order_at, what=f"J-{plan.job}"),))
    job = waiting.job
    findings = [*_day_findings(actor, plan), *_unit_findings(waiting, plan)]
    match = match_slip([(line.key, line.quantity) for line in plan.packed], waiting.goods)
    for line in plan.packed:
        if line.key in match.unknown:
            unknown = please_check("slip_part_not_listed", line.row.at("number"), what=line.number, job=job)
            findings.append(replace(unknown, leaves_out=True))
        elif line.key in match.short:
            lacks = f"{match.short[line.key].normalize():f}"
            facts = {"quantity": lacks, "unit": line.unit, "job": job}
            short = please_check("slip_packed_short", line.row.at("quantity"), **facts)
            findings.append(replace(short, leaves_out=line.key in match.idle))
    if not match.lines:
        findings.append(must_fix("slip_nothing_awaited", plan.order_at, job=job))
    becomes = Finding("", "packing_slip", facts_of(job=job, n=len(match.lines), day=plan.arrives.isoformat()))
    matched = replace(plan, pull_list=waiting.pull_list, lines=tuple(map(UUID, match.lines)))
    return ImportPreview(matched, tuple(findings), (becomes,))


def _day_findings(actor: Actor, plan: SlipPlan) -> list[Finding]:
    assert plan.arrives is not None
    if opening_hours(actor.shop, plan.arrives) is None:
        return [must_fix("slip_without_hours", plan.arrives_at)]
    today = timezone.localdate(timezone=ZoneInfo(actor.shop.zone))
    if today <= plan.arrives <= today + FURTHEST:
        return []
    return [must_fix("slip_day_unlikely", plan.arrives_at)]


def _unit_findings(waiting: WaitingList, plan: SlipPlan) -> list[Finding]:
    return [
        must_fix("unit_not_as_known", line.row.at("quantity"), unit=waiting.units[line.key])
        for line in plan.packed
        if line.key in waiting.units and not _same_unit(line.unit, waiting.units[line.key])
    ]


def _same_unit(unit: str, other: str) -> bool:
    counted = {"pc", "set", "pair"}
    return unit == other or {unit, other} <= counted


def write(actor: Actor, plan: SlipPlan, day: date) -> PullList:
    """Records the day on which the lines arrive, as if a person had entered it. Returns their list."""
    assert plan.pull_list is not None, "what is imported was compared with a list"
    pull_list = PullList.objects.get(shop=actor.shop, pk=plan.pull_list)
    record_due(actor=actor, pull_list=pull_list, lines=plan.lines, day=plan.arrives, at=None, now=timezone.now())
    return pull_list


def job_of(pull_list: PullList, file: FileRead) -> UUID:
    """The id of the job whose goods arrive, which the imported file leads to."""
    assert pull_list.job_id is not None, "a slip arrives for a job"
    return pull_list.job_id


KIND = register(
    FileKind(
        "packing_slip",
        (LINES,),
        plan,
        check,
        write,
        TITLE,
        lines=planned_lines,
        typed=("order", "day"),
        keep_file=job_of,
        example=examples.PACKING_SLIP,
    )
)
