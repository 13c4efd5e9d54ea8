"""The promise date of a quote: when the vehicle can be ready if the customer accepts now.

The date of a draft follows from its choices, that of a sent revision from the plan frozen with it, as of now. An
accepted revision has the date that the customer saw on acceptance.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from functools import lru_cache
from typing import Any, Literal
from zoneinfo import ZoneInfo

from quotes.calc.consents import first_days
from quotes.calc.plan import WorkPlan, plan_from, visit, work_plan
from quotes.models import Revision
from quotes.queries.pricing import Figures, Possibility, shop_day
from shop.calc.days import opening as opening_of
from shop.calc.days import quarter_of
from shop.calc.errors import CalculationError
from shop.calc.visit import Visit
from shop.calc.worktime import WorkCalendar
from shop.models import Shop
from shop.queries.calendar import opening_hours


@dataclass(frozen=True, slots=True)
class Promised:
    """A promise with its input."""

    plan: WorkPlan
    visit: Visit
    calendar: WorkCalendar
    now: datetime


@dataclass(frozen=True, slots=True)
class NoDate:
    """The reason for having no date: no work, no opening hours, a refused calculation, or items without a day.

    `visit` holds the items without a day, `refusal` the error of the calculation.
    """

    code: Literal["not_kept", "no_work", "no_hours", "refused", "dateless"]
    refusal: CalculationError | None = None
    visit: Visit | None = None

    @property
    def awaited(self) -> tuple[str, ...]:
        """The titles of kits and outside work without a day, for the customer."""
        return tuple(expected.title for expected in self.visit.dateless) if self.visit else ()


@dataclass(frozen=True, slots=True)
class BothPromises:
    """The promise with every consent (`early`), and the one without the consent to begin early (`later`).

    `first_day`: in the later one nothing is ordered or begun before it; None without a withdrawal period. `open`: the
    customer's consent decides between the two; otherwise they are equal.
    """

    early: Promised | NoDate
    later: Promised | NoDate
    first_day: date | None = None
    open: bool = False


def draft_plan(revision: Revision, figures: Figures | Possibility) -> WorkPlan:
    loaded = figures.loaded
    return work_plan(loaded.input, figures.priced, loaded.sheet, revision.here_from, revision.here)


def frozen_plan(document: Mapping[str, Any]) -> WorkPlan | None:
    """The plan of a sent version; None for one from before there were plans, and for a change to a job."""
    if "plan" not in document or "change" in document:
        return None
    return plan_from(document["plan"], {kit["title"] for kit in document["shown"]["kits"]})


Opening = WorkCalendar | None | Literal["unread"]
"""The opening hours as a caller read them for several plans, or not yet."""


def promised(
    plan: WorkPlan | None, shop: Shop, now: datetime, not_before: date | None = None, opening: Opening = "unread"
) -> Promised | NoDate:
    """The promise as of the quarter of an hour of `now`, or the reason for having none.

    Within that quarter of an hour the answer stays byte for byte the same, so its ETag still matches. Before
    `not_before` nothing is ordered and no work begins.
    """
    now = quarter_of(now)
    if plan is None or not plan.steps:
        return NoDate("not_kept" if plan is None else "no_work")
    calendar = hours_on(shop, now) if opening == "unread" else opening
    if calendar is None:
        return NoDate("no_hours")
    planned_visit = _visit(plan, calendar, _begins(now, not_before, calendar))
    if isinstance(planned_visit, CalculationError):
        return NoDate("refused", refusal=planned_visit)
    if planned_visit.dateless:
        return NoDate("dateless", visit=planned_visit)
    return Promised(plan, _on_its_day(planned_visit, plan, calendar, now), calendar, now)


def hours_on(shop: Shop, now: datetime) -> WorkCalendar | None:
    """The opening hours from the day of `now` on."""
    return opening_hours(shop, now.astimezone(ZoneInfo(shop.zone)).date())


@lru_cache(maxsize=1024)
def _visit(plan: WorkPlan, calendar: WorkCalendar, begins: datetime) -> Visit | CalculationError:
    """The visit of a plan, worked out once in a quarter of an hour however many prices and readers share it."""
    try:
        return visit(plan, calendar, begins)
    except CalculationError as refused:
        return refused


def _on_its_day(planned_visit: Visit, plan: WorkPlan, calendar: WorkCalendar, now: datetime) -> Visit:
    """The visit, with the vehicle coming on its named day even if no work may begin by then."""
    day = plan.here_from
    if plan.here or day is None or not planned_visit.here or day <= now.astimezone(calendar.zone).date():
        return planned_visit
    return replace(planned_visit, here=False, bring=opening_of(day, calendar))


def both_promises(
    plan: WorkPlan | None, terms: Mapping[str, Any], shop: Shop, now: datetime, opening: Opening = "unread"
) -> BothPromises:
    """Both promises. `terms` are consents and right to withdraw as in frozen texts (`quotes.calc.consents`)."""
    at_best, waits = first_days(terms, shop_day(shop, now))
    if at_best != waits and opening == "unread" and plan is not None and plan.steps:
        opening = hours_on(shop, quarter_of(now))
    early = promised(plan, shop, now, at_best, opening)
    if at_best == waits:
        return BothPromises(early, early, waits)
    return BothPromises(early, promised(plan, shop, now, waits, opening), waits, open=True)


def _begins(now: datetime, not_before: date | None, calendar: WorkCalendar) -> datetime:
    if not_before is None:
        return now
    return max(now, datetime.combine(not_before, time.min, calendar.zone))
