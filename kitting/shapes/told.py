"""What the sentences of a job's readiness speak of: its rows, what is missing, and the judgement."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from kitting.calc.job_readiness import Judged, Lacks, Work, judge_job, lacks
from kitting.calc.missing import Group, Item, Missing, in_bags
from kitting.job_loading import LoadedJob
from kitting.models import PullLine
from shop.calc.refusal import Refusal
from shop.calc.visit import Step
from shop.dates import shelf_words
from shop.words import say


@dataclass(frozen=True, slots=True)
class Told:
    """What the sentences speak of."""

    loaded: LoadedJob
    found: Lacks
    titles: Mapping[str, str]  # by key of the group
    group_of: Mapping[str, Group]  # by line
    rows: Mapping[str, PullLine]
    steps: Mapping[str, Step]
    judged: Judged | None = None
    refused: Refusal | None = None

    @property
    def work(self) -> Work:
        return self.loaded.work

    @property
    def zone(self) -> str:
        return str(self.loaded.job.shop.zone)

    @property
    def withdrawable(self) -> bool:
        """Whether the customer may still withdraw, so that nothing is ordered or begun."""
        until = self.loaded.job.not_before
        return until is not None and until > self.today

    def step(self, code: str) -> Step | None:
        return self.steps.get(code)

    @property
    def today(self) -> date:
        return self.work.now.astimezone(ZoneInfo(self.zone)).date()

    def due(self, at: datetime) -> str:
        return shelf_words(at, self.work.calendar, self.zone, self.today)


def told_of(loaded: LoadedJob) -> Told:
    found = lacks(loaded.work)
    told = Told(
        loaded,
        found,
        titles={group.key: title_of(group, loaded, as_heading=False) for group in found.groups},
        group_of={each.item.line: group for group in found.groups for each in group.lines},
        rows={str(row.pk): row for row in loaded.lines},
        steps={step.code: step for step in loaded.work.steps},
    )
    try:
        return replace(told, judged=judge_job(loaded.work, found, told.titles))
    except Refusal as refusal:
        return replace(told, refused=refusal)


def title_of(group: Group, loaded: LoadedJob, as_heading: bool = True) -> str:
    item = group.first.item
    if group.kind == "line":
        return _of_box(item.title, item, loaded)
    if group.kind == "shelf":
        return say("readiness.shelf_title") if as_heading else say("readiness.shelf", n=len(group.lines))
    kit = _of_box(loaded.kits[item.kit].title if item.kit in loaded.kits else item.kit, item, loaded)
    if group.kind == "kit":
        return kit
    place = "carton" if item.carton else "bags" if in_bags(item) else "loose"
    return say(f"readiness.{place}", kit=kit, carton=item.carton)


def _of_box(title: str, item: Item, loaded: LoadedJob) -> str:
    """With the number of its box where the list has several of its kit."""
    boxes = loaded.boxes.get(item.kit, ())
    return say("readiness.box", title=title, n=boxes.index(item.copy) + 1) if len(boxes) > 1 else title


def due_of(told: Told, missing: Missing) -> str:
    """As a person said it; what only the supplier's lead days say is expected, and nobody need have ordered it."""
    days = missing.item.lead_days
    if missing.due is None or missing.overdue or missing.item.said_at is not None or days is None:
        return brief_due(told, missing)
    return say("readiness.expected" if days else "readiness.expected_same_day", n=days, when=told.due(missing.due))


def brief_due(told: Told, missing: Missing) -> str:
    if missing.due is None:
        return say("readiness.due_unknown")
    return say("readiness.was_due" if missing.overdue else "readiness.due", when=told.due(missing.due))
