"""How far a job can go with what was counted for it, and when its vehicle can be ready.

Puts together the calculations of readiness and promise over the job's steps and its pull list.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from decimal import Decimal
from typing import Literal

from kitting.calc.missing import (
    Box,
    Missing,
    MissingGroup,
    NeededItem,
    Times,
    grouped,
    missing_items,
    needed_at,
    soonest,
)
from kitting.calc.pooling import PieceAllocation, allocate_pieces, with_stops
from kitting.calc.readiness import Arrival, Delivery, Readiness, ReadinessInput, SheetOperation, judge_readiness
from shop.calc.days import here_from, quarter_of
from shop.calc.errors import CalculationError
from shop.calc.network import walk
from shop.calc.outside import PlannedOutsideWork, coming_back, with_outside
from shop.calc.visit import ExpectedDelivery, Step, Team, Visit, look_ahead, starts_at_once
from shop.calc.worktime import WorkCalendar

StepState = Literal["clear", "comes", "waits", "after"]
OUTSIDE = "outside"  # before the title: an item that stands for another firm's work
NO_STEP = Step("", "", 0, Decimal(0))
"""Stands for the work of a job that has none written down: it needs everything at once."""


@dataclass(frozen=True, slots=True)
class JobWork:
    """The job's steps in sheet order, the items its pull list names for them, and when work can begin.

    `here_from`: the day from which the vehicle is here; None where no day is known. `opened`: cartons of which only
    something that the vehicle does not take was counted. `outside`: what other firms do.
    """

    steps: tuple[Step, ...]
    items: tuple[NeededItem, ...]
    now: datetime
    opened_on: date
    calendar: WorkCalendar | None = None
    here_from: date | None = None
    team: Team = Team()
    opened: frozenset[Box] = frozenset()
    outside: tuple[PlannedOutsideWork, ...] = ()

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(step.code for step in self.steps)

    @property
    def planned(self) -> tuple[Step, ...]:
        """The steps, with what other firms do between them."""
        return with_outside(self.steps, self.outside)

    @property
    def away(self) -> tuple[ExpectedDelivery, ...]:
        """Outside work that is still to come back, or has no day. Its days count from the acceptance.

        Once its day has passed we assume that it is back: nothing records its return yet.
        """
        if self.calendar is None:
            return ()
        since = datetime.combine(self.opened_on, time.min, self.calendar.zone)
        coming = coming_back(self.outside, self.steps, since, self.calendar)
        return tuple(delivery for delivery in coming if delivery.at is None or delivery.at > self.now)


@dataclass(frozen=True, slots=True)
class JobForecast:
    """`states` of the steps by code; `ahead` is None without steps or opening hours, `refused` says what kept it."""

    readiness: Readiness
    states: Mapping[str, StepState]
    ahead: Visit | None
    refused: CalculationError | None = None
    before_hold: Decimal = Decimal(0)  # hours of the clear steps up to the hold


@dataclass(frozen=True, slots=True)
class Shortages:
    """Lines that are short, their groups as people read them, the pieces each step gets, and how far work can go."""

    missing: tuple[Missing, ...]
    groups: tuple[MissingGroup, ...]
    allocations: tuple[PieceAllocation, ...]
    readiness: Readiness | CalculationError

    @property
    def at(self) -> dict[str, list[MissingGroup]]:
        """Step -> the groups, each cut down to the lines that stop it and to the pieces that it lacks."""
        groups_by_step: dict[str, list[MissingGroup]] = defaultdict(list)
        for group in self.groups:
            lines: dict[str, list[Missing]] = defaultdict(list)
            for line in group.lines:
                for code, pieces in line.stops:
                    lines[code].append(replace(line, pieces=pieces, stops=((code, pieces),)))
            for code, cut in lines.items():
                groups_by_step[code].append(replace(group, lines=tuple(cut)))
        return groups_by_step

    def needed(self, code: str, pool: str) -> int:
        """How many pieces of a part the step needs in all."""
        return sum(
            allocation.item.need
            for allocation in self.allocations
            if allocation.step == code and allocation.item.pool == pool
        )

    def arriving(self, arrival: Arrival) -> Missing:
        """The line with which the last piece of this arrival comes."""
        coming = [
            line
            for line in self.missing
            if line.item.pool == arrival.item and arrival.code in dict(line.stops) and line.in_time is not None
        ]
        return max(coming, key=soonest)


def find_shortages(work: JobWork) -> Shortages:
    job = _normalised(work)
    short = missing_items(work.items, Times(work.now, work.opened_on, work.calendar), work.opened)
    readiness = _readiness(job, short)
    allocations = allocate_pieces(work.items, job.codes, _served(job, readiness))
    missing = with_stops(short, allocations)
    return Shortages(missing, grouped(missing, work.items, work.codes, work.opened), allocations, readiness)


def _readiness(job: JobWork, short: Sequence[Missing]) -> Readiness | CalculationError:
    try:
        return judge_readiness(_sheet(job, short))
    except CalculationError as refusal:
        return refusal


def _served(job: JobWork, readiness: Readiness | CalculationError) -> tuple[str, ...]:
    """The operations as they get what is here: those that are clear, then those that will be, then the rest."""
    if isinstance(readiness, CalculationError):
        return job.codes
    walked = tuple(step.code for step in walk(job.steps))
    return tuple(dict.fromkeys((*readiness.clear, *readiness.covered, *walked)))


def judge_job(work: JobWork, shortages: Shortages, titles: Mapping[str, str]) -> JobForecast:
    """The verdict, the state of each step and the way to the date. `titles`: what each group is called, by key.

    Refuses what readiness refuses; what the promise alone refuses is kept.
    """
    job, readiness = _normalised(work), shortages.readiness
    if isinstance(readiness, CalculationError):
        raise readiness
    coming = tuple(_coming(job, shortages, titles))
    ahead, refused = _ahead(job, coming)
    return JobForecast(readiness, _states(job.codes, readiness), ahead, refused, _before_hold(job, readiness))


def waited_for(readiness: Readiness, work: JobWork, shortages: Shortages) -> tuple[Missing, ...]:
    """The lines that keep the work from going past its hold: of the held steps and of those before them."""
    held_codes = held_steps(readiness, work)
    return tuple(line for line in shortages.missing if any(code in held_codes for code, _ in line.stops if code))


def held_steps(readiness: Readiness, work: JobWork) -> set[str]:
    """The steps that keep the work from going past its hold."""
    after = {step.code: step.after for step in work.steps}
    waiting, held_codes = list(readiness.held_by), set[str]()
    while waiting:
        code = waiting.pop()
        if code not in held_codes and code not in readiness.covered:
            held_codes.add(code)
            waiting += after.get(code, ())
    return held_codes


def _before_hold(work: JobWork, readiness: Readiness) -> Decimal:
    hours, clear = Decimal(0), set(readiness.clear)
    for step in walk(work.steps):
        if step.code == readiness.hold_before:
            return hours
        hours += step.hours if step.code in clear else 0
    return Decimal(0)


def _normalised(work: JobWork) -> JobWork:
    """Without predecessors that the job does not have; with one step where none is written down."""
    codes = set(work.codes)
    steps = tuple(replace(step, after=tuple(code for code in step.after if code in codes)) for step in work.steps)
    return replace(work, steps=steps or (NO_STEP,))


def _sheet(work: JobWork, short: Iterable[Missing]) -> ReadinessInput:
    """The steps with their needs by part. No step needs a spare, but a spare fills in for a missing piece."""
    needs: dict[str, dict[str, Decimal]] = {code: defaultdict(Decimal) for code in work.codes}
    on_hand: dict[str, Decimal] = defaultdict(Decimal)
    for item in work.items:
        on_hand[item.pool] += item.have
        if not item.minor:
            needs[needed_at(item, needs)][item.pool] += item.need
    for back in work.away:
        needs[_step_of(back, needs)][outside_item(back)] += 1
    deliveries: dict[str, list[Delivery]] = defaultdict(list)
    for line in sorted(short, key=soonest):
        if line.in_time is not None:
            deliveries[line.item.pool].append(Delivery(line.in_time, Decimal(line.pieces)))
    for at, title in sorted((delivery.at, delivery.title) for delivery in work.away if delivery.at):
        deliveries[f"{OUTSIDE} {title}"].append(Delivery(at, Decimal(1)))
    return ReadinessInput(
        operations=tuple(_operation(step, needs[step.code]) for step in work.steps),
        on_hand=on_hand,
        deliveries={pool: tuple(coming) for pool, coming in deliveries.items()},
        starts=_starts(work),
    )


def outside_item(back: ExpectedDelivery) -> str:
    """The item of readiness that stands for another firm's work."""
    return f"{OUTSIDE} {back.title}"


def _step_of(back: ExpectedDelivery, codes: Iterable[str]) -> str:
    return back.operation if back.operation in codes else next(iter(codes))


def _operation(step: Step, needs: Mapping[str, Decimal]) -> SheetOperation:
    return SheetOperation(step.code, step.hours, step.after, needs, step.no_return, step.mobile_again)


def _starts(work: JobWork) -> dict[str, datetime]:
    """When each step would start if work began now, or when the vehicle comes, and nothing had to be waited for."""
    if work.calendar is None or work.codes == ("",):
        return {}
    now = quarter_of(work.now)
    try:
        return starts_at_once(work.planned, work.calendar, here_from(work.here_from, work.calendar, now), work.team)
    except CalculationError:
        return {}


def _ahead(work: JobWork, coming: Sequence[ExpectedDelivery]) -> tuple[Visit | None, CalculationError | None]:
    if work.calendar is None or work.codes == ("",):
        return None, None
    try:
        now = quarter_of(work.now)
        return look_ahead(work.planned, (*coming, *work.away), work.calendar, now, work.team, work.here_from), None
    except CalculationError as refusal:
        return None, refusal


def _coming(work: JobWork, shortages: Shortages, titles: Mapping[str, str]) -> Iterator[ExpectedDelivery]:
    """One arrival a group and step. What only has to be counted is on its way to nobody; of a line from the shelf
    whose supplier's lead days are not known there is no delivery date, as there was none on the quote.
    """
    sizes = _sizes(work.items)
    for group in shortages.groups:
        if group.first.uncounted:
            lines = (line for line in group.lines if line.uncounted_without_day)
            yield from (
                ExpectedDelivery(line.item.sold_as or line.item.title, line.step, None, ask=line.item.supplier)
                for line in lines
            )
            continue
        for code in dict.fromkeys(code for line in group.lines for code, _ in line.stops):
            first, things = group.first, len(group.lines) if group.kind == "shelf" else 1
            was_due = first.due if first.overdue else None
            yield ExpectedDelivery(
                titles[group.key],
                code,
                first.in_time,
                was_due,
                things,
                parts=len(group.lines),
                whole=_is_whole(group, sizes),
                ask=first.item.supplier,
            )


def _sizes(items: Sequence[NeededItem]) -> dict[tuple[str, int, str | None], int]:
    """How many lines are in each box that nobody has opened, and in the only carton of a kit; None: all of the kit."""
    opened = {(item.kit, item.copy) for item in items if item.counted}
    cartons: dict[tuple[str, int], set[str]] = defaultdict(set)
    for item in items:
        if item.carton:
            cartons[item.kit, item.copy].add(item.carton)
    sizes: dict[tuple[str, int, str | None], int] = defaultdict(int)
    for item in items:
        box = item.kit, item.copy
        if item.kit and box not in opened:
            sizes[(*box, None)] += 1
        elif item.kit and item.carton and len(cartons[box]) == 1:
            sizes[(*box, item.carton)] += 1
    return sizes


def _is_whole(group: MissingGroup, sizes: Mapping[tuple[str, int, str | None], int]) -> bool:
    """Whether a kit that nobody has opened, or its only carton, is missing as a whole."""
    item, lines = group.first.item, len(group.lines)
    return lines in (sizes.get((item.kit, item.copy, None)), sizes.get((item.kit, item.copy, item.carton)))


def _states(codes: Sequence[str], readiness: Readiness) -> dict[str, StepState]:
    clear, covered, blocked = (
        set(readiness.clear),
        set(readiness.covered),
        {operation.code for operation in readiness.blocked},
    )

    def state(code: str) -> StepState:
        if code in clear:
            return "clear"
        if code not in blocked:
            return "after"
        return "comes" if code in covered else "waits"

    return {code: state(code) for code in codes}
