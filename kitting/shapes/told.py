"""What the sentences of a job's readiness speak of: its rows, what is missing, and the judgement."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from kitting.calc.job_readiness import Judged, Lacks, Work, judge_job, lacks
from kitting.calc.missing import Group, Missing
from kitting.job_loading import LoadedJob
from kitting.models import PullLine
from kitting.shapes.dues import shelf_words
from shop.calc.outlook import Step
from shop.calc.refusal import Refusal
from shop.words import say


@dataclass(frozen=True, slots=True)
class Told:
    """What the sentences speak of."""

    loaded: LoadedJob
    found: Lacks
    titles: Mapping[Group, str]
    group_of: Mapping[str, Group]  # by line
    rows: Mapping[str, PullLine]
    judged: Judged | None = None
    refused: Refusal | None = None

    @property
    def work(self) -> Work:
        return self.loaded.work

    @property
    def zone(self) -> str:
        return str(self.loaded.job.shop.zone)

    def step(self, code: str) -> Step | None:
        return next((each for each in self.work.steps if each.code == code), None)

    def due(self, at: datetime) -> str:
        return shelf_words(at, self.work.calendar, self.zone)


def told_of(loaded: LoadedJob) -> Told:
    found = lacks(loaded.work)
    told = Told(
        loaded,
        found,
        titles={group: title_of(group, loaded, as_heading=False) for group in found.groups},
        group_of={each.item.line: group for group in found.groups for each in group.lines},
        rows={str(row.pk): row for row in loaded.lines},
    )
    try:
        return replace(told, judged=judge_job(loaded.work, found, told.titles))
    except Refusal as refusal:
        return replace(told, refused=refusal)


def title_of(group: Group, loaded: LoadedJob, as_heading: bool = True) -> str:
    item = group.first.item
    if group.kind == "line":
        return item.title
    if group.kind == "shelf":
        return say("readiness.shelf_title" if as_heading else "readiness.shelf")
    kit = loaded.kits[item.kit].title if item.kit in loaded.kits else item.kit
    if group.kind == "kit":
        return kit
    return say("readiness.carton" if item.carton else "readiness.loose", kit=kit, carton=item.carton)


def due_of(told: Told, missing: Missing) -> str:
    if missing.due is None:
        return say("readiness.due_unknown")
    return say("readiness.was_due" if missing.overdue else "readiness.due", when=told.due(missing.due))
