"""Reads the input of a job's readiness, with one query for each kind of row."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import OuterRef, QuerySet, Subquery

from kitting.calc.contents import COUNTED_IN, MINOR_ROLES, pieces
from kitting.calc.counting import Tally, fold
from kitting.calc.job_readiness import JobWork
from kitting.calc.line_state import Flags
from kitting.calc.missing import Box, NeededItem, on_hand
from kitting.calc.observed import flags, wrong_since_counted
from kitting.models import CountEvent, Kit, KitRevision, Need, Offer, Part, PullLine, PullList
from kitting.queries.counts import count_log
from kitting.queries.offers import lead_days_of, lead_days_without_offer, newest_offers
from kitting.queries.outside import job_outside, outside_of_steps
from shop.access import rules_on
from shop.calc.days import opening
from shop.calc.placing import AgreedStep
from shop.calc.rules import Rules
from shop.calc.visit import Step, Team
from shop.calc.withdrawal import is_waiting
from shop.compiled import compiled
from shop.models import Job, JobOperation, Shop
from shop.queries.calendar import opening_hours
from shop.queries.steps import agreed_step, standing_steps, steps_in_order


@dataclass(frozen=True, slots=True)
class Counts:
    """The tallies, flags and wrong parts of a pull list, by line; `opened` are the boxes with a counted line."""

    tallies: Mapping[str, Tally]
    flags: Mapping[str, Flags]
    wrong: Mapping[str, int]
    opened: frozenset[Box] = frozenset()

    def counted(self, line: UUID) -> bool:
        """Returns whether the line counts as counted, by the definition of the list and its report."""
        key = str(line)
        return key in self.tallies or self.flags.get(key, Flags()).sealed

    def settled(self, line: UUID) -> bool:
        """Returns whether the line has a count, a sealed box or a wrong part that still holds."""
        key = str(line)
        noted = self.flags.get(key, Flags())
        return key in self.tallies or noted.sealed or key in self.wrong

    def unusable(self, line: UUID) -> int:
        """The pieces of the line that are here, damaged or of another part."""
        key = str(line)
        return (self.tallies[key].damaged if key in self.tallies else 0) + self.wrong.get(key, 0)

    def day(self, line: PullLine) -> datetime | None:
        """The day on which what is missing arrives. A day that was entered for a box is over once the box has come."""
        return None if line.due_with_box and box_of(line) in self.opened else line.due_at

    def spoiled(self, line: PullLine) -> int:
        """The pieces that came since the line's date was entered and cannot be used: they are awaited no more."""
        if line.due_unusable is None:
            return 0
        return max(self.unusable(line.pk) - line.due_unusable, 0)


@dataclass(frozen=True, slots=True)
class LoadedJob:
    """The input of readiness, and rows that are only shown: lines in order, kits by code, offers by part."""

    job: Job
    pull_list: PullList | None
    work: JobWork
    lines: Sequence[PullLine]
    kits: Mapping[str, Kit]
    steps: Mapping[UUID, Step]
    offers: Mapping[UUID, Offer]
    counts: Counts
    counted_at: datetime | None
    boxes: Mapping[str, Sequence[int]]  # copies of each kit
    agreed: Sequence[AgreedStep]  # the steps as their places depend on them


def load_job(job: Job, now: datetime) -> LoadedJob:
    shop, zone = job.shop, ZoneInfo(job.shop.zone)
    today = now.astimezone(zone).date()
    pull_list = PullList.objects.filter(shop=shop, job=job).order_by("-opened_at", "-id").first()
    lines = standing_lines(shop, pull_list) if pull_list else []
    counts, counted_at = _counted(shop, pull_list, lines)
    kits = kits_of(shop, lines)
    offers = newest_offers(shop, bought_parts(lines, kits), today)
    rows = steps_in_order(standing_steps(shop, job))
    steps = {row.pk: _step(row, place, rows[: place - 1]) for place, row in enumerate(rows, start=1)}
    outside = job_outside(job, rows)
    calendar = opening_hours(shop, min(today, job.opened_at.astimezone(zone).date()))
    brought_at = opening(job.here_from, calendar) if calendar and job.here_from and not job.is_here else None
    items = [
        replace(_item(line, counts, kits, offers, steps, brought_at), ordered_on=_ordered_on(line, zone))
        for line in lines
        if line.kind != PullLine.Kind.BESIDE
    ]
    work = JobWork(
        steps=tuple(steps.values()),
        outside=tuple(piece.work for piece in outside),
        progress={piece.work.code: piece.progress for piece in outside if piece.log},
        not_before=dict(_not_before(rows, today)),
        items=tuple(items),
        now=now,
        opened_on=_latest(job.opened_at.astimezone(zone).date(), job.not_before),  # nothing is ordered before
        calendar=calendar,
        here_from=_latest(
            today if job.is_here else job.here_from,
            job.not_before if job.not_before and job.not_before > today else None,
        ),
        team=_team(shop, today),
        opened=counts.opened,
    )
    boxes = {code: sorted({item.copy for item in work.items if item.kit == code}) for code in kits}
    return LoadedJob(
        job, pull_list, work, lines, kits, steps, offers, counts, counted_at, boxes, [agreed_step(row) for row in rows]
    )


def _latest(*days: date | None) -> Any:
    """The latest of the days; None if none is known."""
    return max((day for day in days if day is not None), default=None)


def counts_of(shop: Shop, pull_list: PullList, lines: Sequence[PullLine]) -> Counts:
    """The counts of a list of which these are all the standing lines."""
    log = count_log(shop, pull_list.pk, pull_list.last_seq)
    expected = {str(line.pk): pieces(line.quantity, line.unit) for line in lines}
    counts = Counts(fold(entry.event for entry in log), flags(log, expected), wrong_since_counted(log))
    opened = frozenset(box_of(line) for line in lines if line.kit and counts.settled(line.pk))
    return replace(counts, opened=opened)


def line_on_hand(line: PullLine, counts: Counts) -> int:
    key = str(line.pk)
    need = pieces(line.quantity, line.unit)
    return on_hand(need, counts.tallies.get(key), counts.flags.get(key, Flags()), counts.wrong.get(key, 0))


def bought_parts(lines: Iterable[PullLine], kits: Mapping[str, Kit]) -> list[Part]:
    """The parts that are ordered: the kits, and the parts of lines outside kits."""
    return [kit.part for kit in kits.values()] + [line.part for line in lines if line.part and not line.kit]


def standing_lines(shop: Shop, pull_list: PullList) -> list[PullLine]:
    """The list's current lines without reused parts, in order: kit contents, needs, and parts off the shelf."""
    return _standing_lines(shop.pk, pull_list.pk)


@compiled
def _standing_lines(shop: UUID, pull_list: UUID) -> QuerySet[PullLine]:
    rows = PullLine.objects.filter(shop=shop, pull_list=pull_list, retired_at__isnull=True).exclude(kind="reused")
    return rows.select_related("part__consumable", "copy", "origin").order_by("position")


def kits_of(shop: Shop, lines: Iterable[PullLine]) -> dict[str, Kit]:
    """Kits by the code that their lines bear, each with the `own_lead_days` of its newest revision."""
    codes = {line.copy.kit_id: line.kit for line in lines if line.copy}
    rows = Kit.objects.filter(shop=shop, pk__in=codes).select_related("part__preferred")
    newest = KitRevision.objects.filter(shop=OuterRef("shop"), kit=OuterRef("pk")).order_by("-number")
    return {codes[row.pk]: row for row in rows.annotate(own_lead_days=Subquery(newest.values("lead_days")[:1]))}


def _counted(shop: Shop, pull_list: PullList | None, lines: Sequence[PullLine]) -> tuple[Counts, datetime | None]:
    if pull_list is None:
        return Counts({}, {}, {}), None
    newest = CountEvent.objects.filter(shop=shop, pull_list=pull_list, seq=pull_list.last_seq)
    return counts_of(shop, pull_list, lines), newest.values_list("stored_at", flat=True).first()


def _ordered_on(line: PullLine, zone: ZoneInfo) -> date | None:
    """The first day on which a line that a change added can be ordered."""
    if line.origin is None or line.origin.number == 1:
        return None
    agreed_on: date = line.origin.agreed_at.astimezone(zone).date()
    not_before: date | None = line.origin.not_before
    return max(agreed_on, not_before) if not_before else agreed_on


def _not_before(rows: Sequence[JobOperation], today: date) -> Iterator[tuple[str, date]]:
    """The codes of the steps and the outside work that wait for a withdrawal period, with their first day."""
    for row in rows:
        first_day = row.origin.not_before
        if first_day and is_waiting(first_day, today):
            yield row.code, first_day
            yield from ((work["code"], first_day) for work in outside_of_steps([row]))


def _step(row: JobOperation, place: int, above: Sequence[JobOperation]) -> Step:
    """A step with its number in the order of the work; it also waits for added steps `above` that say so."""
    sheet: Mapping[str, Any] = row.sheet
    added = [other.code for other in above if row.code in other.sheet.get("before", ())]
    after, wait = (*sheet.get("after", ()), *added), int(sheet.get("wait_after") or 0)
    leaves, returns = bool(sheet.get("no_return")), bool(sheet.get("mobile_again"))
    return Step(row.code, row.title, place, row.quoted_hours, after, wait, leaves, returns)


def box_of(line: PullLine) -> Box:
    return line.kit, line.copy_number, line.carton


def _item(
    line: PullLine,
    counts: Counts,
    kits: Mapping[str, Kit],
    offers: Mapping[UUID, Offer],
    steps: Mapping[UUID, Step],
    brought_at: datetime | None,
) -> NeededItem:
    """A line for readiness. What the customer brings comes from no supplier, with the vehicle (`brought_at`)."""
    if line.supplied:
        due_at = counts.day(line) or (None if counts.settled(line.pk) else brought_at)
        return replace(_bought_item(line, counts, kits, {}, steps), said_at=due_at, lead_days=None, supplied=True)
    return _bought_item(line, counts, kits, offers, steps)


def _bought_item(
    line: PullLine,
    counts: Counts,
    kits: Mapping[str, Kit],
    offers: Mapping[UUID, Offer],
    steps: Mapping[UUID, Step],
) -> NeededItem:
    bought = kits[line.kit].part_id if line.kit in kits else line.part_id
    offer = offers.get(bought) if bought else None
    step = steps.get(line.step_id) if line.step_id else None
    lead_days = lead_days_of(offer) if offer else _lead_days_of_kit(kits[line.kit]) if line.kit in kits else None
    return NeededItem(
        line=str(line.pk),
        title=line.title,
        operation=step.code if step else "",
        need=pieces(line.quantity, line.unit),
        have=line_on_hand(line, counts),
        counted=counts.settled(line.pk),
        kit=line.kit,
        copy=line.copy_number,
        carton=line.carton,
        minor=_minor(line.detail),
        said_at=None if counts.spoiled(line) else counts.day(line),
        lead_days=lead_days,
        bag=line.bag,
        supplier=offer.supplier.name if offer else "",
        part=good_for(line),
        sold_as=str(line.detail.get("need", "")),
    )


def _lead_days_of_kit(kit: Kit) -> int | None:
    own: int | None = kit.own_lead_days  # type: ignore[attr-defined]  # of kits_of
    return lead_days_without_offer(kit, own)


def good_for(line: PullLine) -> str:
    """The key of a line's pool, within which pieces are exchangeable: its part, for cut goods also the length."""
    cut = "" if line.unit in COUNTED_IN else f" {line.quantity}"
    return f"{line.part_id} {line.unit}{cut}" if line.part_id else ""


def _minor(detail: Mapping[str, Any]) -> bool:
    """Returns whether no step waits for the line: spares, leaflets, and shop supplies, which are always in stock."""
    return detail.get("role") in MINOR_ROLES or detail.get("charge") == Need.Charge.SUPPLIES


def _team(shop: Shop, day: Any) -> Team:
    row = rules_on(shop, day)
    rules = Rules.from_json(row.rules) if row else None
    return Team(rules.technicians, rules.efficiency) if rules else Team()
