"""The part of a deposit that has been received, and the day on which it came.

Units: money of one currency with tax; days in the shop's zone.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, localcontext
from itertools import groupby

from shop.calc.money import EXACT

DatedAmount = tuple[date, Decimal]
"""(day on which money was received, how much; negative for money paid back)"""


@dataclass(frozen=True, slots=True)
class ReceivedDeposit:
    """The received part of a deposit, at most all of it; `day` is that of its last payment."""

    amount: Decimal
    day: date
    whole: bool


def receive_deposit(deposit: Decimal, payments: Iterable[DatedAmount]) -> ReceivedDeposit | None:
    """The part of `deposit` that these payments cover; None while nothing is received.

    Money that was paid back counts as never received. The day of a covered deposit is the one since which it is
    covered.
    """
    sums = _sums(payments)
    if not sums or sums[-1][1] <= 0:
        return None
    total = sums[-1][1]
    below = [place for place, (_, amount) in enumerate(sums) if amount < deposit]
    if total < deposit:
        raised = [day for (day, amount), (_, before) in zip(sums[1:], sums, strict=False) if amount > before]
        return ReceivedDeposit(total, raised[-1] if raised else sums[0][0], whole=False)
    return ReceivedDeposit(deposit, sums[below[-1] + 1 if below else 0][0], whole=True)


def _sums(payments: Iterable[DatedAmount]) -> list[DatedAmount]:
    """The sum that had been received at the end of each day, the earliest first."""
    sums, total = [], Decimal(0)
    with localcontext(EXACT):
        for day, rows in groupby(sorted(payments), key=lambda payment: payment[0]):
            total += sum((amount for _, amount in rows), Decimal(0))
            sums.append((day, total))
    return sums
