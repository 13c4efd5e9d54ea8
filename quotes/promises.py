"""The promise date of a quote: when the vehicle can be ready if the customer says yes now.

A draft speaks from its choices; a sent issue from the plan that was frozen with it, as of now; an accepted one says
what was told when the customer said yes.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from quotes.calc.plan import WorkPlan, plan_from, visit, work_plan
from quotes.figures import Figures
from quotes.models import Decision, Revision
from shop.calc.days import quarter_of
from shop.calc.refusal import Refusal
from shop.calc.visit import Visit
from shop.calc.worktime import Calendar
from shop.loading import opening_hours
from shop.models import Shop
from shop.problems import calculation_words
from shop.promising import promise_shape
from shop.words import say


@dataclass(frozen=True, slots=True)
class Promised:
    """A promise and what it was computed from."""

    plan: WorkPlan
    visit: Visit
    calendar: Calendar
    now: datetime

    @property
    def shape(self) -> dict[str, Any]:
        return promise_shape(self.visit, self.plan.steps, self.calendar, self.plan.team, self.now)


def draft_plan(revision: Revision, found: Figures) -> WorkPlan:
    return work_plan(found.loaded.input, found.priced, found.loaded.sheet, revision.here_from)


def frozen_plan(kept: Mapping[str, Any]) -> WorkPlan | None:
    """The plan of a sent issue; None for one that was frozen before there were plans."""
    return plan_from(kept["plan"]) if "plan" in kept else None


def promised(plan: WorkPlan | None, shop: Shop, now: datetime) -> Promised | str:
    """The promise as of the quarter of an hour of `now`, or a sentence on why there is none.

    A quote that is read again soon is then the same to the last letter, and need not be sent again.
    """
    now = quarter_of(now)
    if plan is None or not plan.steps:
        return say("promise.not_kept" if plan is None else "promise.no_work")
    calendar = opening_hours(shop, now.astimezone(ZoneInfo(shop.zone)).date())
    if calendar is None:
        return say("promise.no_hours")
    try:
        return Promised(plan, visit(plan, calendar, now), calendar, now)
    except Refusal as refused:
        return calculation_words(refused)


def quote_promise(
    revision: Revision, found: Figures | None, kept: Mapping[str, Any], decision: Decision | None, now: datetime
) -> dict[str, Any]:
    """`promise` and `no_promise` of the quote as the API shows it."""
    if decision and revision.state == Revision.State.ACCEPTED:
        return _recorded(decision, kept)
    plan = draft_plan(revision, found) if found else frozen_plan(kept)
    told = promised(plan, revision.shop, now)
    if isinstance(told, str):
        return {"promise": None, "no_promise": told}
    return {"promise": told.shape, "no_promise": None}


def _recorded(decision: Decision, kept: Mapping[str, Any]) -> dict[str, Any]:
    """What was told at the yes, and nothing of today: who said yes to no day was promised none."""
    told = decision.record.get("promise")
    if told:
        return {"promise": told["whole"], "no_promise": None}
    return {"promise": None, "no_promise": say("promise.none_told" if "plan" in kept else "promise.not_kept")}
