"""Exchange rates as answers."""

from collections.abc import Container
from datetime import date
from uuid import UUID

from shop.answers.rates import RateOut
from shop.calc.quantity import plain
from shop.models import Rate


def rate_answer(row: Rate, in_force: Container[UUID], today: date) -> RateOut:
    return RateOut(
        id=row.pk,
        currency=row.currency,
        rate=plain(row.rate),
        valid_from=row.valid_from,
        state="in_force" if row.pk in in_force else "coming" if row.valid_from > today else "earlier",
    )
