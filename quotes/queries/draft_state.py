"""The choices of people in a draft, as plain data: enough to make the draft the same again."""

from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Model

from quotes.calc.forms import FrozenContent
from quotes.models import (
    Choice,
    DraftStep,
    Line,
    LinePhotograph,
    Option,
    OutsideWork,
    Override,
    Revision,
    TakenOff,
)

ROWS: tuple[type[Any], ...] = (
    Choice,
    Option,
    Line,
    LinePhotograph,
    OutsideWork,
    Override,
    TakenOff,
)  # each after those that it points to
DERIVED = {"shop", "revision", "amount"}  # the same for every state, or written by sending
OF_QUOTE = ("customer_id", "vehicle_id", "note")
OF_REVISION = (
    "rules_id",
    "rules_before",
    "rules_declined",
    "condition",
    "here",
    "here_from",
    "discount_percent",
    "discount_amount",
    "discount_reason",
    "charges",
    "customer_note",
)


def state_of(revision: Revision) -> FrozenContent:
    """The draft's own fields, those of its quote, and its rows by table."""
    return {
        "quote": {name: _plain(getattr(revision.quote, name)) for name in OF_QUOTE},
        "revision": {name: _plain(getattr(revision, name)) for name in OF_REVISION},
        **{table.__name__: _rows(table, revision) for table in ROWS},
    }


def columns(table: type[Model]) -> list[str]:
    """The columns of a table that a state holds."""
    return [field.attname for field in table._meta.concrete_fields if field.name not in DERIVED]


def _rows(table: type[Any], revision: Revision) -> list[dict[str, Any]]:
    names = columns(table)
    rows = table.objects.filter(shop=revision.shop, revision=revision).order_by("id").values_list(*names)
    return [dict(zip(names, map(_plain, row), strict=True)) for row in rows]


def _plain(value: Any) -> Any:
    """The value as JSON holds it; a field reads it back by `to_python`."""
    return str(value) if isinstance(value, (UUID, Decimal, date)) else value


def next_steps(revision: Revision) -> tuple[DraftStep | None, DraftStep | None]:
    """(the change that undo takes back, the one that redo makes again), without their states."""
    rows = DraftStep.objects.filter(shop=revision.shop, revision=revision).defer("state").order_by("number")
    steps = list(rows)
    done = [step for step in steps if not step.undone]
    undone = [step for step in steps if step.undone]
    return (done[-1] if done else None), (undone[0] if undone else None)
