"""Reads the dates that a job's customer was given: with the acceptance, and afterwards."""

from dataclasses import dataclass
from datetime import date

from quotes.calc.answer import half_day_of, half_day_value
from quotes.models import Decision, Quote, ToldDate
from shop.models import Job


@dataclass(frozen=True, slots=True)
class ToldHalfDay:
    """The half day that the customer counts on; `place` is 0 for the morning and 1 for the afternoon."""

    day: date
    place: int


@dataclass(frozen=True, slots=True)
class ToldDates:
    """The quote that opened the job, the later dates (the newest first), and the half day that counts now."""

    quote: Quote
    later: tuple[ToldDate, ...]
    counted_on: ToldHalfDay | None


def told_dates(job: Job) -> ToldDates | None:
    """None for a job that no quote opened."""
    decision = (
        Decision.objects.filter(shop=job.shop_id, quote__job=job, quote__additional=False, answer="accepted")
        .select_related("quote__customer", "quote__shop")
        .first()
    )
    if decision is None:
        return None
    later = tuple(later_dates(job))
    return ToldDates(decision.quote, later, _of_row(later[0]) if later else _of_record(decision))


def later_dates(job: Job) -> list[ToldDate]:
    """The dates told after the acceptance, the newest first."""
    rows = ToldDate.objects.filter(shop=job.shop_id, job=job).select_related("told_by__user")
    return list(rows.order_by("-told_at", "-id"))


def _of_row(row: ToldDate) -> ToldHalfDay | None:
    return ToldHalfDay(row.ready_on, int(row.half == ToldDate.Half.AFTERNOON)) if row.ready_on else None


def _of_record(decision: Decision) -> ToldHalfDay | None:
    promise = decision.record.get("promise")
    half_day = half_day_of(half_day_value(promise["told"])) if promise else None
    return ToldHalfDay(*half_day) if half_day else None
