"""One goodwill discount over several tax classes: the calculation named discount (fixtures/vectors/discount.json).

Units: money of one currency before tax, with at most `exponent` decimal places; 10 percent is 10. The allowances enter
the totals of a document unchanged. The caller leaves out core deposits.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction

from shop.calc.document import ClassAmount
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, allocate, rounded
from shop.calc.quantity import exact
from shop.calc.reason import Reason

_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class DiscountInput:
    """The net `lines` of a document, and either `percent` of their sum or an `amount` to subtract."""

    lines: tuple[ClassAmount, ...]
    percent: Decimal | None = None
    amount: Decimal | None = None
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class SplitDiscount:
    """The discount by tax class. `allowances` are in the order of the lines, without zeros, and add up to `discount`.

    `steps` hold `percent_of_nets` (percent, nets, amount) or `amount` (amount), then for each class `share`
    (tax_class, net, amount) or, if its net is not above zero, `no_share` (tax_class, net).
    """

    discount: Decimal
    allowances: tuple[ClassAmount, ...]
    steps: tuple[Reason, ...]


def split_discount(discount_input: DiscountInput) -> SplitDiscount:
    """The discount, shared over the classes with a positive net by largest remainder.

    Refuses `bad_discount` (the figure below zero, or both or neither), `discount_too_large` (the discount and the sum
    of the positive nets), `not_exact`.
    """
    _check(discount_input)
    with localcontext(EXACT):
        nets = _nets(discount_input.lines)
        discount, first = _discount(discount_input, sum(nets.values(), _NOTHING))
        shareable = {tax_class: net for tax_class, net in nets.items() if net > 0}
        most = sum(shareable.values(), _NOTHING)
        if discount > most:
            raise CalculationError("discount_too_large", f"{discount} of {most}")
        amounts = allocate(discount, tuple(shareable.values()), discount_input.exponent)
    shares = dict(zip(shareable, amounts, strict=True))
    return SplitDiscount(
        discount=discount,
        allowances=tuple(ClassAmount(tax_class, amount) for tax_class, amount in shares.items() if amount),
        steps=(first, *(_class_step(tax_class, net, shares) for tax_class, net in nets.items())),
    )


def _nets(lines: tuple[ClassAmount, ...]) -> dict[str, Decimal]:
    """The net amount of each class, in the order in which the lines first name them."""
    nets: dict[str, Decimal] = {}
    for line in lines:
        nets[line.tax_class] = nets.get(line.tax_class, _NOTHING) + line.amount
    return nets


def _discount(discount_input: DiscountInput, nets: Decimal) -> tuple[Decimal, Reason]:
    if discount_input.amount is not None:
        amount = rounded(discount_input.amount, discount_input.exponent)
        return amount, Reason.of("amount", amount=amount)
    percent = discount_input.percent or _NOTHING
    amount = rounded(Fraction(max(nets, _NOTHING)) * Fraction(percent) / 100, discount_input.exponent)
    return amount, Reason.of("percent_of_nets", percent=percent, nets=nets, amount=amount)


def _class_step(tax_class: str, net: Decimal, shares: Mapping[str, Decimal]) -> Reason:
    if tax_class not in shares:
        return Reason.of("no_share", tax_class=tax_class, net=net)
    return Reason.of("share", tax_class=tax_class, net=net, amount=shares[tax_class])


def _check(discount_input: DiscountInput) -> None:
    for line in discount_input.lines:
        exact(line.amount, line.tax_class)
    figures = {"percent": discount_input.percent, "amount": discount_input.amount}
    stated = {name: figure for name, figure in figures.items() if figure is not None}
    if len(stated) != 1:
        raise CalculationError("bad_discount", " and ".join(stated) or "neither percent nor amount")
    for name, figure in stated.items():
        if exact(figure, name) < 0:
            raise CalculationError("bad_discount", f"{name} {figure}")
