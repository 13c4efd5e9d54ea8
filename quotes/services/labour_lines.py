"""Labour that a person puts on a draft: an operation of the list, or hours at the rate of a skill."""

from decimal import Decimal

from django.db import transaction

from quotes.models import Line, Quote, Revision
from quotes.services import draft_rules
from quotes.services.drafts import changed_draft, insert_line, open_draft
from shop.access import Actor
from shop.calc.money import rounded
from shop.errors import field_error
from shop.models import Operation
from shop.typed import is_blank


@transaction.atomic
def add_operation(*, actor: Actor, quote: Quote, operation: Operation, hours: Decimal | None) -> Revision:
    """Adds an operation with its own hours, or with those that are given. Kits that need it too share it.

    Refuses an operation whose skill the draft's rules do not have.
    """
    revision = open_draft(quote=quote)
    hours = rounded(operation.book_hours, 1) if hours is None else hours
    if hours <= 0:
        raise field_error("/hours", "above_zero")
    return _added(actor, revision, operation.title, operation.skill, hours, operation)


@transaction.atomic
def add_hours(*, actor: Actor, quote: Quote, title: str, skill: str, hours: Decimal) -> Revision:
    """Adds hours of work at the rate of a skill. Refuses a skill that the draft's rules do not have."""
    revision = open_draft(quote=quote)
    if is_blank(title):
        raise field_error("/title", "missing")
    return _added(actor, revision, title, skill, hours, None)


def _added(
    actor: Actor, revision: Revision, title: str, skill: str, hours: Decimal, operation: Operation | None
) -> Revision:
    line = insert_line(
        revision,
        kind=Line.Kind.LABOUR,
        title=title,
        tax_class=draft_rules.labour_class(revision, skill),
        quantity=hours,
        skill=skill,
        operation=operation,
    )
    return changed_draft(actor, revision, "line added", {"line": ["", line.title]}, line.title)
