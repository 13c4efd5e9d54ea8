"""Undo and redo over the whole draft: each change leaves a step with what people had chosen before it."""

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from quotes import access
from quotes.calc.forms import FrozenContent
from quotes.models import DraftStep, OutsideWork, Quote, Revision
from quotes.queries.draft_state import OF_QUOTE, OF_REVISION, ROWS, columns, state_of
from quotes.services.draft_steps import KEPT
from quotes.services.drafts import changed_draft, lock_draft
from shop.access import Actor
from shop.errors import RequestError
from shop.services.customers import lock_customer
from shop.services.search_words import keep_words


@transaction.atomic
def undo(*, actor: Actor, quote: Quote, seen: int) -> Revision:
    """Undoes the newest change of the draft that was seen."""
    return _swap(actor, quote, seen, undone=True)


@transaction.atomic
def redo(*, actor: Actor, quote: Quote, seen: int) -> Revision:
    """Redoes the change that was undone last."""
    return _swap(actor, quote, seen, undone=False)


def _swap(actor: Actor, quote: Quote, seen: int, *, undone: bool) -> Revision:
    """Exchanges the draft's state with that of the step, so that the step leads back."""
    revision = lock_draft(quote=quote, seen=seen)
    steps = DraftStep.objects.filter(shop=revision.shop, revision=revision, undone=not undone)
    step = steps.order_by("-number" if undone else "number").first()
    if step is None:
        raise RequestError(409, "nothing-to-undo", most=KEPT) if undone else RequestError(409, "nothing-to-redo")
    state, step.state, step.undone = step.state, state_of(revision), undone
    _restore(revision, state, present=step.state)
    step.save(update_fields=["state", "undone"])
    verb = "undone" if undone else "made again"
    return changed_draft(actor, access.current(revision.quote), verb, {step.verb: [step.about, ""]})


def _restore(revision: Revision, state: FrozenContent, present: FrozenContent) -> None:
    """Makes the draft the same as in this state. Tables whose rows are the same are left alone."""
    own: tuple[tuple[Any, Sequence[str], str], ...] = (
        (revision.quote, OF_QUOTE, "quote"),
        (revision, OF_REVISION, "revision"),
    )
    for row, names, fields in own:
        if state[fields] != present[fields]:
            for name in names:
                if name in state[fields]:  # a step of an older version lacks newer fields
                    setattr(row, name, _read(row, name, state[fields][name]))
            if row is revision.quote and row.customer is not None:
                row.customer = lock_customer(row.customer)  # put together with another since, or at this moment
            row.save(update_fields=[name.removesuffix("_id") for name in names])
    rows = {table: state.get(table.__name__, []) for table in ROWS}  # a step of an older version lacks newer tables
    first = next((at for at, table in enumerate(ROWS) if rows[table] != present[table.__name__]), len(ROWS))
    changed = ROWS[first:]  # a table may point to rows of an earlier one that are written again
    for table in reversed(changed):
        table.objects.filter(shop=revision.shop, revision=revision).delete()
    for table in changed:
        table.objects.bulk_create(
            table(
                shop=revision.shop,
                revision=revision,
                **{name: _read(table, name, row[name]) for name in columns(table) if name in row},
            )
            for row in rows[table]
        )
    if OutsideWork in changed:
        work = OutsideWork.objects.filter(shop=revision.shop, revision=revision).select_related("line", "firm")
        if works := list(work):
            keep_words(works)


def _read(table: Any, name: str, value: Any) -> Any:
    return None if value is None else table._meta.get_field(name.removesuffix("_id")).to_python(value)
