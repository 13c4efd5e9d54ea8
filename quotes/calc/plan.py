"""The input of a quote's promise date: its work in order, and the deliveries that the work waits for."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from quotes.calc.priced import PricedNeed, PricedQuote
from quotes.calc.quote_input import Buying, QuoteInput
from shop.calc.days import on_the_shelf
from shop.calc.outside import PlannedOutsideWork, coming_back, needs_itself, outside_from, outside_json, with_outside
from shop.calc.reason import Reason
from shop.calc.sheet import SheetStep as SheetStep
from shop.calc.visit import ExpectedDelivery, Step, Team, Visit, look_ahead
from shop.calc.worktime import WorkCalendar

MOST_LEAD = 3652
SUPPLIES = "supplies"  # goods covered by shop supplies are in stock: no job waits for them


@dataclass(frozen=True, slots=True)
class PlannedPurchase:
    """Something to buy for an operation ("": the first). `lead_days` are calendar days from acceptance.

    `lead_days` is None if it is not known. `whole`: a whole kit, without whose delivery date no date can be given.
    """

    title: str
    operation: str
    lead_days: int | None
    whole: bool = False
    supplier: str = ""


@dataclass(frozen=True, slots=True)
class WorkPlan:
    """The work of a quote.

    The vehicle is `here`, or comes on the day `here_from`, or the calculation proposes a day.
    """

    steps: tuple[Step, ...]
    purchases: tuple[PlannedPurchase, ...]
    team: Team
    here_from: date | None
    here: bool = False
    outside: tuple[PlannedOutsideWork, ...] = ()

    @property
    def planned(self) -> tuple[Step, ...]:
        """The steps with the work of other firms inserted."""
        return with_outside(self.steps, self.outside)


@dataclass(frozen=True, slots=True)
class WorkSequence:
    """The order of work from the templates. `waits` are minutes after an operation.

    After an operation of `no_return` the vehicle cannot move until one of `mobile_again` is done. `needed_at` maps a
    kit line to the codes of the operations that first need something from its box ("": not recorded).
    """

    steps: tuple[SheetStep, ...]
    waits: Mapping[str, int]
    needed_at: Mapping[str, tuple[str, ...]]
    no_return: frozenset[str] = frozenset()
    mobile_again: frozenset[str] = frozenset()
    wheels_off: frozenset[str] = frozenset()


def work_plan(
    quote: QuoteInput, priced: PricedQuote, sequence: WorkSequence, here_from: date | None, here: bool = False
) -> WorkPlan:
    """The plan of a priced quote. Operations that another one includes stay in it with no hours."""
    codes = {operation.code for operation in priced.operations}
    after = {step.code: tuple(code for code in step.after if code in codes) for step in sequence.steps}
    steps = tuple(
        Step(
            code=operation.code,
            title=operation.title,
            position=position,
            hours=operation.hours,
            after=after.get(operation.code, ()),
            wait_after=sequence.waits.get(operation.code, 0),
            no_return=operation.code in sequence.no_return,
            mobile_again=operation.code in sequence.mobile_again,
        )
        for position, operation in enumerate(priced.operations, start=1)
    )
    purchases = tuple(dict.fromkeys(_purchases(quote, priced, sequence, codes)))
    team = Team(quote.rules.technicians, quote.rules.efficiency)
    return WorkPlan(steps, purchases, team, here_from, here, tuple(work.work for work in quote.outside))


def _purchases(
    quote: QuoteInput, priced: PricedQuote, sequence: WorkSequence, codes: set[str]
) -> Iterator[PlannedPurchase]:
    firsts = first_steps((operation.code, operation.kits) for operation in priced.operations)
    for kit in (kit for kit in quote.kits if not kit.supplied):  # the others come with the vehicle
        lead = _usable_lead(kit.buying.lead_days if kit.buying else kit.own_lead_days)
        for code in sequence.needed_at.get(kit.line, ()) or ("",):
            at = code if code in codes else firsts.get(kit.letter, "")
            yield PlannedPurchase(kit.title, at, lead, whole=True, supplier=_seller(kit.buying))
    for need in priced.needs:
        if need.charge != SUPPLIES and (need.packs or need.quantity > 0):
            for code in _needed_at(need, quote, firsts, codes):
                sellers = dict.fromkeys(_seller(pack.sold.buying) for pack in need.packs)
                yield PlannedPurchase(need.title, code, _lead(need), supplier=", ".join(filter(None, sellers)))
    for extra in quote.extras:
        if extra.part is not None and not extra.supplied:
            yield PlannedPurchase(extra.title, "", _usable_lead(_lead_of(extra.buying)), supplier=_seller(extra.buying))


def first_steps(work: Iterable[tuple[str, Iterable[str]]]) -> dict[str, str]:
    """Maps a kit's letter to its first step. Parts tied to no step are needed there.

    `work` has the code and the letters of each step, in the order of the job.
    """
    firsts: dict[str, str] = {}
    for code, letters in work:
        for letter in letters:
            firsts.setdefault(letter, code)
    return firsts


def _needed_at(need: PricedNeed, quote: QuoteInput, firsts: Mapping[str, str], codes: Collection[str]) -> Iterable[str]:
    rows = [row for row in quote.needs if row.item == need.item]
    return dict.fromkeys(row.operation if row.operation in codes else firsts.get(row.kit, "") for row in rows)


def _usable_lead(days: int | None) -> int | None:
    """The lead days; None above `MOST_LEAD` (ten years), which is as good as not known."""
    return days if days is not None and days <= MOST_LEAD else None


def _lead_of(buying: Buying | None) -> int | None:
    return buying.lead_days if buying else None


def _seller(buying: Buying | None) -> str:
    return buying.supplier if buying else ""


def _lead(need: PricedNeed) -> int | None:
    """The longest lead time of the need's packs; None if one is not known or there are no packs."""
    days = [_usable_lead(pack.sold.buying.lead_days) for pack in need.packs]
    stated = [lead for lead in days if lead is not None]
    return max(stated) if stated and len(stated) == len(days) else None


def visit(plan: WorkPlan, calendar: WorkCalendar, now: datetime) -> Visit:
    """The visit if the customer accepts `now`, when everything is ordered today. `plan` has steps."""
    here_from = now.astimezone(calendar.zone).date() if plan.here else plan.here_from
    return look_ahead(plan.planned, deliveries(plan, calendar, now), calendar, now, plan.team, here_from)


def deliveries(plan: WorkPlan, calendar: WorkCalendar, now: datetime) -> list[ExpectedDelivery]:
    """Everything that the plan waits for if it is ordered `now`, with the returns of outside work."""
    today = now.astimezone(calendar.zone).date()
    shelf = {
        days: on_the_shelf(today + timedelta(days=days), calendar)
        for days in {purchase.lead_days for purchase in plan.purchases}
        if days is not None
    }
    coming = [
        ExpectedDelivery(
            purchase.title,
            purchase.operation,
            None if purchase.lead_days is None else shelf[purchase.lead_days],
            whole=purchase.whole,
            ask=purchase.supplier,
        )
        for purchase in plan.purchases
    ]
    return [*coming, *coming_back(plan.outside, plan.steps, now, calendar)]


def plan_json(plan: WorkPlan) -> dict[str, Any]:
    """The plan as a frozen text stores it: strings, whole numbers and lists."""
    return {
        "steps": [
            {
                "code": step.code,
                "title": step.title,
                "position": step.position,
                "hours": f"{step.hours:f}",
                "after": list(step.after),
                "wait_after": step.wait_after,
                "no_return": step.no_return,
                "mobile_again": step.mobile_again,
            }
            for step in plan.steps
        ],
        "coming": [
            {
                "title": purchase.title,
                "operation": purchase.operation,
                "lead_days": purchase.lead_days,
                "whole": purchase.whole,
                "supplier": purchase.supplier,
            }
            for purchase in plan.purchases
        ],
        "outside": [outside_json(work) for work in plan.outside],
        "technicians": plan.team.technicians,
        "efficiency": f"{plan.team.efficiency:f}",
        "here": plan.here,
        "here_from": plan.here_from.isoformat() if plan.here_from else None,
    }


def outside_notices(quote: QuoteInput, priced: PricedQuote, sequence: WorkSequence) -> Iterator[Reason]:
    """`outside_step_gone`: the work names a step that is not done here. `outside_needs_itself`: it waits for itself."""
    steps = work_plan(quote, priced, sequence, None).steps
    codes = {step.code for step in steps}
    for chosen in quote.outside:
        named = {chosen.work.starts_after, chosen.work.needed_by} - {""}
        if not named <= codes:
            yield Reason.of("outside_step_gone", line=chosen.line, title=chosen.work.title)
        elif needs_itself(chosen.work, steps):
            yield Reason.of("outside_needs_itself", line=chosen.line, title=chosen.work.title)


def plan_from(content: Mapping[str, Any], kits: Collection[str]) -> WorkPlan:
    """The plan of a frozen text. `kits` are its kits' titles: plans frozen before 26 Nov 2026 do not mark them.

    Those plans do not say either that a vehicle without a day is here, so a day is proposed.
    """
    return WorkPlan(
        steps=tuple(
            Step(
                step["code"],
                step["title"],
                step["position"],
                Decimal(step["hours"]),
                tuple(step["after"]),
                step["wait_after"],
                step["no_return"],
                step["mobile_again"],
            )
            for step in content["steps"]
        ),
        purchases=tuple(
            PlannedPurchase(
                purchase["title"],
                purchase["operation"],
                purchase["lead_days"],
                whole=purchase.get("whole", purchase["title"] in kits),
                supplier=purchase.get("supplier", ""),
            )
            for purchase in content["coming"]
        ),
        team=Team(content["technicians"], Decimal(content["efficiency"])),
        here_from=date.fromisoformat(content["here_from"]) if content["here_from"] else None,
        here=content.get("here", False),
        outside=tuple(outside_from(work) for work in content.get("outside", ())),
    )
