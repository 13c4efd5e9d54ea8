"""The items that a change takes off its job, as figures of the quote."""

from collections.abc import Sequence
from decimal import Decimal
from typing import cast

from msgspec import UNSET, UnsetType

from quotes.answers.figures import TakenOffOut
from quotes.calc.agreed import ItemKind
from quotes.calc.quote_input import TakenLine
from shop.calc.quantity import hours, money


def taken_answer(taken: Sequence[TakenLine], e: int) -> list[TakenOffOut] | UnsetType:
    """The lines that are taken off; absent where there are none, as on every quote that opens a job."""
    return [_line(line, e) for line in taken] or UNSET


def taken_sum(taken: Sequence[TakenLine], e: int) -> str | UnsetType:
    return money(-sum((line.amount for line in taken), Decimal(0)), e) if taken else UNSET


def _line(line: TakenLine, e: int) -> TakenOffOut:
    kind = cast(ItemKind, line.kind)
    return TakenOffOut(line.source, line.item, kind, line.title, hours(line.hours), money(-line.amount, e))
