"""Works out how far a job can go with the parts counted for it, and the date on which its vehicle can be ready.

Combines the calculations of readiness and promise over the job's steps and its pull list.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
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
from kitting.calc.outside_log import OutsideProgress, due_back
from kitting.calc.pooling import PieceAllocation, allocate_pieces, with_stops
from kitting.calc.readiness import Arrival, Delivery, Readiness, ReadinessInput, SheetOperation, judge_readiness
from shop.calc.days import here_from, opening, quarter_of
from shop.calc.errors import CalculationError
from shop.calc.network import walk
from shop.calc.outside import PlannedOutsideWork, coming_back, with_outside
from shop.calc.visit import ExpectedDelivery, Step, Team, Visit, look_ahead, starts_at_once
from shop.calc.worktime import WorkCalendar

StepState = Literal["clear", "comes", "waits", "after"]
OUTSIDE = "outside"  # prefix of the item that stands for another firm's work
WITHDRAWAL = "withdrawal"  # prefix of the item that stands for the end of a step's withdrawal period
NOTHING_RECORDED = OutsideProgress()
NO_STEP = Step("", "", 0, Decimal(0))
"""The single step of a job without recorded steps: it needs all parts."""


@dataclass(frozen=True, slots=True)
class JobWork:
    """The job's steps in sheet order, the items that its pull list names for them, and the earliest start.

    `here_from` is the day from which the vehicle is here; None: not known. `opened`: cartons in which only parts that
    the vehicle does not take were counted. `outside`: the work of other firms, and `progress` what is recorded of it by
    its code. `not_before`: the first day of steps and outside work, by code, that must wait until the customer can no
    longer withdraw from the change that added them.
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
    progress: Mapping[str, OutsideProgress] = field(default_factory=dict)
    not_before: Mapping[str, date] = field(default_factory=dict)

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(step.code for step in self.steps)

    @property
    def planned(self) -> tuple[Step, ...]:
        """The steps with the work of other firms inserted."""
        return with_outside(self.steps, self.proposed)

    @property
    def proposed(self) -> tuple[PlannedOutsideWork, ...]:
        """The outside work that nobody has sent yet."""
        return tuple(work for work in self.outside if self.progress_of(work).state == "proposed")

    def progress_of(self, work: PlannedOutsideWork) -> OutsideProgress:
        return self.progress.get(work.code, NOTHING_RECORDED)

    @property
    def away(self) -> tuple[ExpectedDelivery, ...]:
        """Outside work that is still to come back, or has no date.

        The turnaround counts from the day on which it was sent; until then from its first day.
        """
        if self.calendar is None:
            return ()
        zone = self.calendar.zone
        proposed = (
            back
            for work in self.proposed
            for back in coming_back(
                [work], self.steps, datetime.combine(self.first_day(work), time.min, zone), self.calendar
            )
        )
        return (*proposed, *self._sent(self.calendar))

    def first_day(self, work: PlannedOutsideWork) -> date:
        """The first day on which the work may be ordered: today, unless the customer may still withdraw. Needs opening
        hours.
        """
        assert self.calendar is not None
        today = self.now.astimezone(self.calendar.zone).date()
        return max(self.opened_on, today, self.not_before.get(work.code, today))

    @property
    def withdrawal_ends(self) -> tuple[ExpectedDelivery, ...]:
        """The ends of the withdrawal periods that steps wait for."""
        if self.calendar is None:
            return ()
        return tuple(
            ExpectedDelivery("", step.code, opening(self.not_before[step.code], self.calendar), withdrawal=True)
            for step in self.steps
            if step.code in self.not_before
        )

    def _sent(self, calendar: WorkCalendar) -> Iterator[ExpectedDelivery]:
        """The returns of work that is with its firm; late work has no date until the firm names one."""
        for work in self.outside:
            progress = self.progress_of(work)
            if progress.state == "sent":
                due = due_back(progress, work.days, calendar)
                late = due is not None and due <= self.now
                at = None if late else due
                yield ExpectedDelivery(
                    work.title,
                    work.needed_by,
                    at,
                    due if late else None,
                    whole=at is None,
                    ask=work.firm,
                    outside=True,
                )


@dataclass(frozen=True, slots=True)
class JobForecast:
    """The verdict, and the `states` of the steps by code.

    `ahead` is None without steps or opening hours, or if the promise is refused; `refused` has the error then.
    """

    readiness: Readiness
    states: Mapping[str, StepState]
    ahead: Visit | None
    refused: CalculationError | None = None
    before_hold: Decimal = Decimal(0)  # hours of the clear steps up to the hold


@dataclass(frozen=True, slots=True)
class Shortages:
    """Short lines, their groups as shown to people, the pieces allocated to each step, and the readiness."""

    missing: tuple[Missing, ...]
    groups: tuple[MissingGroup, ...]
    allocations: tuple[PieceAllocation, ...]
    readiness: Readiness | CalculationError

    @property
    def at(self) -> dict[str, list[MissingGroup]]:
        """Maps each step to its groups, reduced to the lines that stop it and the pieces that it lacks."""
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
        """The total pieces of a part that the step needs."""
        return sum(
            allocation.item.need
            for allocation in self.allocations
            if allocation.step == code and allocation.item.pool == pool
        )

    def arriving(self, arrival: Arrival) -> Missing:
        """The line that brings the last piece of this arrival."""
        coming = [
            line
            for line in self.missing
            if line.item.pool == arrival.item and arrival.code in dict(line.stops) and line.in_time is not None
        ]
        return max(coming, key=soonest)


def find_shortages(work: JobWork) -> Shortages:
    """The shortages of a job, with the steps that they stop."""
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
    """The order in which operations get pieces: those that are clear, those that will be, then the rest."""
    if isinstance(readiness, CalculationError):
        return job.codes
    walked = tuple(step.code for step in walk(job.steps))
    return tuple(dict.fromkeys((*readiness.clear, *readiness.covered, *walked)))


def judge_job(work: JobWork, shortages: Shortages, titles: Mapping[str, str]) -> JobForecast:
    """The verdict, the state of each step and the way to the date. `titles` are the groups' titles by key.

    Refuses what readiness refuses. What only the promise refuses is kept in `refused`.
    """
    job, readiness = _normalised(work), shortages.readiness
    if isinstance(readiness, CalculationError):
        raise readiness
    coming = tuple(_coming(job, shortages, titles))
    ahead, refused = _ahead(job, coming)
    return JobForecast(readiness, _states(job.codes, readiness), ahead, refused, _before_hold(job, readiness))


def waited_for(readiness: Readiness, work: JobWork, shortages: Shortages) -> tuple[Missing, ...]:
    """The lines that keep the work from passing its hold: those of the held steps and of their predecessors."""
    held_codes = held_steps(readiness, work)
    return tuple(line for line in shortages.missing if any(code in held_codes for code, _ in line.stops if code))


def held_steps(readiness: Readiness, work: JobWork) -> set[str]:
    """The steps that keep the work from passing its hold."""
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
    """The work without unknown predecessors, and with a single step if none is recorded."""
    codes = set(work.codes)
    steps = tuple(replace(step, after=tuple(code for code in step.after if code in codes)) for step in work.steps)
    return replace(work, steps=steps or (NO_STEP,))


def _sheet(work: JobWork, short: Iterable[Missing]) -> ReadinessInput:
    """The steps with their needs by part. No step needs a spare, but a spare can replace a missing piece."""
    needs: dict[str, dict[str, Decimal]] = {code: defaultdict(Decimal) for code in work.codes}
    on_hand: dict[str, Decimal] = defaultdict(Decimal)
    for item in work.items:
        on_hand[item.pool] += item.have
        if not item.minor:
            needs[needed_at(item, needs)][item.pool] += item.need
    for back in (*work.away, *work.withdrawal_ends):
        needs[_step_of(back, needs)][awaited_item(back)] += 1
    deliveries: dict[str, list[Delivery]] = defaultdict(list)
    for line in sorted(short, key=soonest):
        if line.in_time is not None:
            deliveries[line.item.pool].append(Delivery(line.in_time, Decimal(line.pieces)))
    for at, awaited in sorted((back.at, awaited_item(back)) for back in (*work.away, *work.withdrawal_ends) if back.at):
        deliveries[awaited].append(Delivery(at, Decimal(1)))
    return ReadinessInput(
        operations=tuple(_operation(step, needs[step.code]) for step in work.steps),
        on_hand=on_hand,
        deliveries={pool: tuple(coming) for pool, coming in deliveries.items()},
        starts=_starts(work),
    )


def awaited_item(back: ExpectedDelivery) -> str:
    """The item of readiness that stands for another firm's work, or for the end of a step's withdrawal period."""
    return f"{WITHDRAWAL} {back.operation}" if back.withdrawal else f"{OUTSIDE} {back.title}"


def _step_of(back: ExpectedDelivery, codes: Iterable[str]) -> str:
    return back.operation if back.operation in codes else next(iter(codes))


def _operation(step: Step, needs: Mapping[str, Decimal]) -> SheetOperation:
    return SheetOperation(step.code, step.hours, step.after, needs, step.no_return, step.mobile_again)


def _starts(work: JobWork) -> dict[str, datetime]:
    """The start of each step if work began now, or when the vehicle comes, and nothing had to arrive."""
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
        expected = (*coming, *work.away, *work.withdrawal_ends)
        return look_ahead(work.planned, expected, work.calendar, now, work.team, work.here_from), None
    except CalculationError as refusal:
        return None, refusal


def _coming(work: JobWork, shortages: Shortages, titles: Mapping[str, str]) -> Iterator[ExpectedDelivery]:
    """One delivery for each group and step.

    A line that only has to be counted is not a delivery. If it is from the shelf and its supplier's lead days are not
    known, it is a delivery without a date, as on the quote.
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
    """Maps (kit, copy, None) of an unopened kit, and (kit, copy, carton) of a kit's only carton, to its number of
    lines.
    """
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
    """True if a whole unopened kit, or its only carton, is missing."""
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
