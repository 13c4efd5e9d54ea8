"""The data that the sentences on a job's readiness share: rows, missing items, and the verdict."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from kitting.calc.job_readiness import JobForecast, JobWork, Shortages, find_shortages, judge_job
from kitting.calc.line_state import NOTHING_NOTED, LineState, line_state
from kitting.calc.missing import Missing, MissingGroup, NeededItem, in_bags
from kitting.calc.readiness import Arrival
from kitting.models import PullLine
from kitting.presenters.boxes import bag_inside, place_inside
from kitting.presenters.reports import state_words
from kitting.queries.readiness import LoadedJob
from shop.calc.errors import CalculationError
from shop.calc.visit import Step
from shop.models import Job
from shop.presenters.dates import shelf_words, short_day
from shop.words import say


@dataclass(frozen=True, slots=True)
class ReadinessContext:
    """The rows, missing items and verdict of one job."""

    loaded: LoadedJob
    shortages: Shortages
    titles: Mapping[str, str]  # by key of the group
    group_of: Mapping[str, MissingGroup]  # by line
    rows: Mapping[str, PullLine]
    steps: Mapping[str, Step]
    judged: JobForecast | None = None
    refused: CalculationError | None = None

    @property
    def work(self) -> JobWork:
        return self.loaded.work

    @property
    def zone(self) -> str:
        return str(self.loaded.job.shop.zone)

    @property
    def withdrawable(self) -> bool:
        """Returns whether the customer may still withdraw, so that nothing is ordered or begun."""
        until = self.loaded.job.not_before
        return until is not None and until > self.today

    @property
    def called_off(self) -> bool:
        """Returns whether the job was called off: nothing is waited for any more."""
        return bool(self.loaded.job.state == Job.State.CALLED_OFF)

    def arriving(self, arrival: Arrival) -> MissingGroup:
        return self.group_of[self.shortages.arriving(arrival).item.line]

    def step(self, code: str) -> Step | None:
        return self.steps.get(code)

    def place(self, code: str) -> int:
        """The position of a step on the job sheet; one past the last for a code that is not on it."""
        step = self.steps.get(code)
        return step.position if step else max((other.position for other in self.steps.values()), default=0) + 1

    @property
    def today(self) -> date:
        return self.work.now.astimezone(ZoneInfo(self.zone)).date()

    def due(self, at: datetime) -> str:
        return shelf_words(at, self.work.calendar, self.zone, self.today)


def context_of(loaded: LoadedJob) -> ReadinessContext:
    shortages = find_shortages(loaded.work)
    context = ReadinessContext(
        loaded,
        shortages,
        titles={group.key: title_of(group, loaded, as_heading=False) for group in shortages.groups},
        group_of={line.item.line: group for group in shortages.groups for line in group.lines},
        rows={str(row.pk): row for row in loaded.lines},
        steps={step.code: step for step in loaded.work.steps},
    )
    try:
        return replace(context, judged=judge_job(loaded.work, shortages, context.titles))
    except CalculationError as refusal:
        return replace(context, refused=refusal)


def title_of(group: MissingGroup, loaded: LoadedJob, as_heading: bool = True) -> str:
    item = group.first.item
    if group.kind == "line":
        return _of_box(item.title, item, loaded)
    if group.kind == "shelf":
        return say("readiness.shelf_title") if as_heading else say("readiness.shelf", n=len(group.lines))
    kit = kit_of(item, loaded)
    if group.kind == "kit":
        return kit
    if group.kind == "bag" and (item.bag or item.carton):
        return say("readiness.bag", kit=kit, bag=bag_inside(item.bag, item.carton))
    key = "readiness.carton" if item.carton else "readiness.bags" if in_bags(item) else "readiness.loose"
    return say(key, kit=kit, carton=item.carton)


def kit_of(item: NeededItem, loaded: LoadedJob) -> str:
    return _of_box(loaded.kits[item.kit].title if item.kit in loaded.kits else item.kit, item, loaded)


def to_count(group: MissingGroup, loaded: LoadedJob) -> str:
    """'3 lines of bag G not counted yet: count them'"""
    item, n = group.first.item, len(group.lines)
    if not item.kit:
        return say("readiness.to_count.shelf", n=n)
    if item.bag:
        return say("readiness.to_count.bag", n=n, bag=bag_inside(item.bag))
    if item.carton:
        return say("readiness.to_count.loose", n=n, carton=item.carton)
    return say("readiness.to_count.kit", n=n, kit=kit_of(item, loaded))


def place_of(item: NeededItem, loaded: LoadedJob, with_kit: bool) -> str:
    """'carton 1, bag 1-02', or 'from the shelf'."""
    if not item.kit:
        return say("readiness.shelf_place")
    place = place_inside(item.carton, item.bag)
    return say("readiness.bag", kit=kit_of(item, loaded), bag=place) if with_kit else place


def _of_box(title: str, item: NeededItem, loaded: LoadedJob) -> str:
    """The title, with the number of the box if the list has several of the kit."""
    boxes = loaded.boxes.get(item.kit, ())
    return say("readiness.box", title=title, n=boxes.index(item.copy) + 1) if len(boxes) > 1 else title


def because(context: ReadinessContext, item: NeededItem) -> list[str]:
    """The words of the line's states, as on the list and in the report of differences."""
    tally = context.loaded.counts.tallies.get(item.line)
    return [state_words(state, tally) for state in _states(context, item)]


def unusable(context: ReadinessContext, missing: Missing) -> bool:
    """Returns whether pieces of the line are on hand but cannot be used."""
    return any(code in ("damaged", "wrong_part") for code, _ in _states(context, missing.item))


def _states(context: ReadinessContext, item: NeededItem) -> tuple[LineState, ...]:
    counts = context.loaded.counts
    return line_state(item.need, counts.tallies.get(item.line), "box", counts.flags.get(item.line, NOTHING_NOTED))


def due_of(context: ReadinessContext, missing: Missing, n: int = 1) -> str:
    """The due date of a missing line in words: 'due' for a day that a person gave.

    A date from the supplier's lead days is worded as an expectation: it assumes an order on the day of acceptance.
    `n` is the number of lines, for lines that only have to be counted.
    """
    if missing.uncounted:
        return say("readiness.count_them", n=n)
    if missing.item.supplied:
        return _brought(context, missing)
    if missing.due is None:
        return say("readiness.due_unknown")
    when = context.due(missing.due)
    if missing.item.said_at is not None:
        return say("readiness.was_due" if missing.overdue else "readiness.due", when=when)
    ordered = missing.item.ordered_on or context.work.opened_on
    if ordered == context.today:
        return say("readiness.expected_today", when=when)
    key = "readiness.was_expected" if missing.overdue else "readiness.expected"
    return say(key, when=when, ordered=short_day(ordered, context.today))


def _brought(context: ReadinessContext, missing: Missing) -> str:
    """The words on what the customer brings, with the day of the vehicle."""
    if missing.due is None:
        return say("readiness.brought")
    return say("readiness.was_brought" if missing.overdue else "readiness.brought_on", when=context.due(missing.due))
