"""The promised date in the record of an acceptance."""

from datetime import date, datetime

from msgspec import to_builtins

from quotes.calc.forms import FrozenContent
from quotes.presenters.promise import customer_shape
from quotes.presenters.promise_date import promised_answer
from quotes.queries.promise import NoDate, frozen_plan, promised
from shop.models import Shop


def promise_record(
    document: FrozenContent, shop: Shop, now: datetime, not_before: date | None = None
) -> FrozenContent | None:
    """The date for the record: `told` is the customer's form, `whole` the workshop's."""
    if "plan" not in document:
        return None
    promise = promised(frozen_plan(document), shop, now, not_before)
    if isinstance(promise, NoDate):
        return None
    return {"told": customer_shape(promise, now), "whole": to_builtins(promised_answer(promise))}
