"""Rounding and allocation of money, exact to the smallest unit of the currency.

Money is Decimal, and only `rounded` rounds it: half up, away from zero. A Fraction is accepted where a division
must stay exact until then.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Context, Decimal, DivisionByZero, Inexact, InvalidOperation, Overflow
from fractions import Fraction
from math import lcm

from shop.calc.errors import CalculationError

Exact = Decimal | Fraction

_PRECISION = 400
_WIDE = Context(prec=_PRECISION, rounding=ROUND_HALF_UP)

_NO_DECIMALS = frozenset(
    {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF"}
    | {"XPF"}
)
_THREE_DECIMALS = frozenset({"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})

EXACT = Context(prec=_PRECISION, traps=[InvalidOperation, DivisionByZero, Overflow, Inexact])
"""The context for `decimal.localcontext(EXACT)`: sums and products that would silently lose a digit raise instead."""


def rounded(amount: Exact, exponent: int) -> Decimal:
    """`amount` rounded to `exponent` decimal places, half up away from zero; never -0.

    This is the only function that rounds: money to the currency's ISO 4217 exponent, hours to 1, volumes to 3.
    Refuses `not_exact`: a float, or a number that is not finite.
    """
    if isinstance(amount, Decimal) and amount.is_finite():
        unit = Decimal((0, (1,), -exponent))
        return _WIDE.plus(amount.quantize(unit, rounding=ROUND_HALF_UP, context=_WIDE))
    numerator, denominator = _ratio(amount)
    scale = 10**exponent
    units = (2 * abs(numerator) * scale + denominator) // (2 * denominator)
    return _from_units(units if numerator >= 0 else -units, exponent)


def decimals_of(currency: str) -> int:
    """The exponent of an ISO 4217 currency code; 2 unless the standard lists another one."""
    if currency in _NO_DECIMALS:
        return 0
    return 3 if currency in _THREE_DECIMALS else 2


def allocate(total: Decimal, weights: Sequence[Exact], exponent: int) -> tuple[Decimal, ...]:
    """Shares of `total` in proportion to `weights`, by largest remainder. They add up to the total exactly.

    Ties go to the earlier weight. If all weights are zero, the shares are equal. A negative total is shared like its
    absolute value. Refuses `not_rounded` (total finer than `exponent`), `nothing_to_share_over`.
    """
    if rounded(total, exponent) != total:
        raise CalculationError("not_rounded", str(total))
    if not weights and total != 0:
        raise CalculationError("nothing_to_share_over", str(total))
    units = int(abs(total).scaleb(exponent, _WIDE))
    shares = _shared(units, _whole(weights))
    sign = -1 if total < 0 else 1
    return tuple(_from_units(sign * share, exponent) for share in shares)


def _shared(units: int, weights: list[int]) -> list[int]:
    if sum(weights) == 0:
        weights = [1] * len(weights)
    whole = sum(weights)
    shares = [units * weight // whole for weight in weights]
    by_remainder = sorted(range(len(weights)), key=lambda at: -(units * weights[at] % whole))
    for at in by_remainder[: units - sum(shares)]:
        shares[at] += 1
    return shares


def _whole(weights: Sequence[Exact]) -> list[int]:
    """The weights as whole numbers in the same proportion, with a sum that is not negative."""
    ratios = [_ratio(weight) for weight in weights]
    common = lcm(*(denominator for _, denominator in ratios))
    numbers = [numerator * (common // denominator) for numerator, denominator in ratios]
    return numbers if sum(numbers) >= 0 else [-number for number in numbers]


def _ratio(amount: Exact) -> tuple[int, int]:
    if isinstance(amount, float) or (isinstance(amount, Decimal) and not amount.is_finite()):
        raise CalculationError("not_exact", repr(amount))
    return amount.as_integer_ratio()


def _from_units(units: int, exponent: int) -> Decimal:
    return Decimal(f"{units}E-{exponent}")
