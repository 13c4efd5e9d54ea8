"""The choices of people in a draft, as plain data: enough to make the draft the same again."""

from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Model, QuerySet

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
from shop.compiled import CompiledQuery, compiled

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
    rows = _of_revision[table](revision.shop_id, revision.pk)
    return [{name: _plain(value) for name, value in row.items()} for row in rows]


def _columns_of(table: type[Any]) -> CompiledQuery[[UUID, UUID], dict[str, Any]]:
    def rows(shop: UUID, revision: UUID) -> QuerySet[Any, dict[str, Any]]:
        every: QuerySet[Any, dict[str, Any]] = table.objects.filter(shop=shop, revision=revision)
        return every.order_by("id").values(*columns(table))

    return compiled(rows)


_of_revision = {table: _columns_of(table) for table in ROWS}


def _plain(value: Any) -> Any:
    """The value as JSON holds it; a field reads it back by `to_python`."""
    return str(value) if isinstance(value, (UUID, Decimal, date)) else value


def next_steps(revision: Revision) -> tuple[DraftStep | None, DraftStep | None]:
    """(the change that undo takes back, the one that redo makes again), without their states."""
    steps = _steps(revision.shop_id, revision.pk)
    done = [step for step in steps if not step.undone]
    undone = [step for step in steps if step.undone]
    return (done[-1] if done else None), (undone[0] if undone else None)


@compiled
def _steps(shop: UUID, revision: UUID) -> QuerySet[DraftStep]:
    return DraftStep.objects.filter(shop=shop, revision=revision).defer("state").order_by("number")
