"""The account of a job: agreed + changes + what happened - cores returned - received = to pay.

For a job that was called off, work that was not carried out is subtracted again.

Units: money of one currency with tax, at most `exponent` decimal places. Worked cases: fixtures/vectors/account.json.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import exact

RowKind = Literal["agreed", "change", "happened", "core", "called_off"]
Settled = Literal["due", "paid", "over"]

KINDS: tuple[RowKind, ...] = ("agreed", "change", "happened", "core", "called_off")
TAKES: dict[str, str] = {"core": "core_adds", "called_off": "call_off_adds"}  # kinds that never add
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class AccountAmount:
    """The amount of one row with the tax inside it. A change may take away; a returned core and
    what a called-off job does not owe always do.
    """

    kind: RowKind
    amount: Decimal
    tax: Decimal = _NOTHING


@dataclass(frozen=True, slots=True)
class AccountSums:
    """`total` with `tax` inside it, `received` so far, and `due`: below 0 for what is to be paid back."""

    total: Decimal
    tax: Decimal
    received: Decimal
    due: Decimal
    settled: Settled


def sum_account(rows: Sequence[AccountAmount], payments: Sequence[Decimal], exponent: int = 2) -> AccountSums:
    """The sums of an account; a payment back and a reversal are negative payments.

    Refuses `unknown_row` (the kind), `core_adds` and `call_off_adds` (a row above 0 that can only take away),
    `happened_takes` (an amount below 0), `not_rounded` (an amount finer than the currency), `not_exact`.
    """
    with localcontext(EXACT):
        for row in rows:
            _check(row, exponent)
        total = sum((row.amount for row in rows), rounded(_NOTHING, exponent))
        tax = sum((row.tax for row in rows), rounded(_NOTHING, exponent))
        received = sum((_money(amount, exponent, "payment") for amount in payments), rounded(_NOTHING, exponent))
        due = total - received
    settled: Settled = "due" if due > 0 else "over" if due < 0 else "paid"
    return AccountSums(total, tax, received, due, settled)


def not_carried_out(agreed: Sequence[AccountAmount], owed: Sequence[AccountAmount]) -> AccountAmount:
    """The amount to subtract for agreed work that a called-off job does not owe; never a positive amount."""
    with localcontext(EXACT):
        amount = sum((row.amount for row in owed), _NOTHING) - sum((row.amount for row in agreed), _NOTHING)
        tax = sum((row.tax for row in owed), _NOTHING) - sum((row.tax for row in agreed), _NOTHING)
    return AccountAmount("called_off", min(amount, _NOTHING), min(tax, _NOTHING))


def _check(row: AccountAmount, exponent: int) -> None:
    if row.kind not in KINDS:
        raise CalculationError("unknown_row", row.kind)
    _money(row.tax, exponent, row.kind)
    if _money(row.amount, exponent, row.kind) > 0 and row.kind in TAKES:
        raise CalculationError(TAKES[row.kind], str(row.amount))
    if row.amount < 0 and row.kind == "happened":
        raise CalculationError("happened_takes", str(row.amount))


def _money(amount: Decimal, exponent: int, culprit: str) -> Decimal:
    if rounded(exact(amount, culprit), exponent) != amount:
        raise CalculationError("not_rounded", f"{culprit} {amount}")
    return rounded(amount, exponent)
