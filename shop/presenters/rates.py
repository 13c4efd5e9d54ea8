"""Exchange rates as answers."""

from collections.abc import Container
from datetime import date
from typing import Any
from uuid import UUID

from shop.answers.base import utc_or_none
from shop.answers.rates import RateOut
from shop.calc.quantity import plain


def rate_answer(row: Any, in_force: Container[UUID], today: date) -> RateOut:
    """A rate from `shop.access.rates`."""
    return RateOut(
        id=row.pk,
        currency=row.currency,
        rate=plain(row.rate),
        valid_from=row.valid_from,
        state="in_force" if row.pk in in_force else "coming" if row.valid_from > today else "earlier",
        by=row.author_name,
        added_at=utc_or_none(row.added_at),
    )
