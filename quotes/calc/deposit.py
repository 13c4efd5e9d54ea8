"""The deposit that the customer pays before anything is ordered (worked cases: fixtures/vectors/deposit.json).

Units: money of one currency with tax, but `not_returnable` at the workshop's own cost; 50 percent is 50.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from shop.calc.quantity import exact
from shop.calc.reason import Reason

Because = Literal["percent", "cover", "total"]

BASES = ("parts", "total")
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class DepositRule:
    """A deposit of `percent` (0 to 100) of the `base`; with `cover` at least the cost of unreturnable goods."""

    base: str
    percent: Decimal
    cover: bool = False


@dataclass(frozen=True, slots=True)
class DepositInput:
    """`parts` are kits and loose parts before discount, `total` is the whole quote, both with tax.

    `not_returnable` is the exact cost to the workshop of goods that cannot be sent back.
    """

    rule: DepositRule
    parts: Decimal
    total: Decimal
    not_returnable: Decimal = _NOTHING
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class Deposit:
    """The deposit. `because` names the deciding rule: the percentage, the cover, or the total as the upper limit.

    `steps` hold `percent` (base, of, percent, amount), `cover` (not_returnable, amount) and `total` (total) up to the
    deciding one.
    """

    deposit: Decimal
    because: Because
    steps: tuple[Reason, ...]


def ask_deposit(deposit_input: DepositInput) -> Deposit:
    """The deposit and the rule that decided it; never above the total.

    Refuses `bad_rule` (percent outside 0 to 100, unknown base), `negative_amount` (parts, total or not_returnable),
    `not_exact`.
    """
    _check(deposit_input)
    rule = deposit_input.rule
    base = deposit_input.parts if rule.base == "parts" else deposit_input.total
    deposit = rounded(Fraction(base) * Fraction(rule.percent) / 100, deposit_input.exponent)
    because: Because = "percent"
    steps = [Reason.of("percent", base=rule.base, of=base, percent=rule.percent, amount=deposit)]
    cover = _rounded_up(deposit_input.not_returnable, deposit_input.exponent)
    if rule.cover and cover > deposit:
        deposit, because = cover, "cover"
        steps.append(Reason.of("cover", not_returnable=deposit_input.not_returnable, amount=cover))
    if deposit_input.total < deposit:
        deposit, because = deposit_input.total, "total"
        steps.append(Reason.of("total", total=deposit_input.total))
    return Deposit(deposit, because, tuple(steps))


def _rounded_up(amount: Decimal, exponent: int) -> Decimal:
    """The amount rounded up, because rounding down would leave the workshop short by part of a cent."""
    scale = 10**exponent
    return rounded(Fraction(ceil(Fraction(amount) * scale), scale), exponent)


def _check(deposit_input: DepositInput) -> None:
    rule = deposit_input.rule
    if rule.base not in BASES:
        raise CalculationError("bad_rule", f"base {rule.base}")
    if not 0 <= exact(rule.percent, "percent") <= 100:
        raise CalculationError("bad_rule", f"percent {rule.percent}")
    for name in ("parts", "total", "not_returnable"):
        amount: Decimal = getattr(deposit_input, name)
        if exact(amount, name) < 0:
            raise CalculationError("negative_amount", f"{name} {amount}")
