"""The limit of extra work without asking the customer: the calculation named ceiling (fixtures/vectors/ceiling.json).

Units: money of one currency with at most `exponent` decimal places; 10 percent is 10. The workshop's rules choose
whether the figures include tax. What each kind of rule means in law is for the workshop to decide.
"""

from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, Exact, rounded
from shop.calc.quantity import exact
from shop.calc.reason import Reason

Status = Literal["within", "near", "ask"]

NEEDED_FIGURES: dict[str, tuple[str, ...]] = {
    "none": (),
    "percent": ("percent",),
    "percent_capped": ("percent", "cap"),
    "banded": ("percent", "floor", "cap"),
    "maximum": ("maximum",),
}
"""Maps each kind of rule to the figures of `CeilingRule` that it needs."""

NEAR = Fraction(4, 5)
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class CeilingRule:
    """A kind from `NEEDED_FIGURES` and its figures. Figures that the kind does not need are ignored."""

    kind: str
    percent: Decimal | None = None
    floor: Decimal | None = None
    cap: Decimal | None = None
    maximum: Decimal | None = None


@dataclass(frozen=True, slots=True)
class CeilingInput:
    """The amount `agreed` with the customer, the extra work so far (`used`), and the work in question (`extra`)."""

    rule: CeilingRule
    agreed: Decimal
    used: Decimal = _NOTHING
    extra: Decimal = _NOTHING
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class CeilingCheck:
    """The result. `left` is never below zero; `near` is more than four fifths spent, `ask` more than the ceiling.

    `steps` hold `none`, `percent` (agreed, percent), `floor` (floor) and `cap` (cap) where they decide, or `maximum`
    (maximum, agreed), and last `spent` (used, extra, ceiling).
    """

    ceiling: Decimal
    left: Decimal
    status: Status
    steps: tuple[Reason, ...]


def judge_ceiling(ceiling_input: CeilingInput) -> CeilingCheck:
    """The ceiling of a rule, the amount left, and whether the customer must be asked.

    Refuses `unknown_rule` (the kind), `bad_rule` (a figure that the kind needs and that is missing or negative),
    `negative_amount` (agreed, used or extra), `not_exact`.
    """
    _check(ceiling_input)
    amount, steps = _allowed(ceiling_input.rule, ceiling_input.agreed)
    ceiling = rounded(amount, ceiling_input.exponent)
    with localcontext(EXACT):
        spent = ceiling_input.used + ceiling_input.extra
        left = max(ceiling - spent, rounded(_NOTHING, ceiling_input.exponent))
    return CeilingCheck(
        ceiling=ceiling,
        left=left,
        status=_status(spent, ceiling),
        steps=(*steps, Reason.of("spent", used=ceiling_input.used, extra=ceiling_input.extra, ceiling=ceiling)),
    )


def _status(spent: Decimal, ceiling: Decimal) -> Status:
    if spent > ceiling:
        return "ask"
    return "near" if Fraction(spent) > NEAR * Fraction(ceiling) else "within"


def _allowed(rule: CeilingRule, agreed: Decimal) -> tuple[Exact, tuple[Reason, ...]]:
    """The ceiling before rounding, and the steps to it."""
    if rule.kind == "none":
        return _NOTHING, (Reason.of("none"),)
    if rule.kind == "maximum":
        maximum = _figure(rule, "maximum")
        with localcontext(EXACT):
            return max(maximum - agreed, _NOTHING), (Reason.of("maximum", maximum=maximum, agreed=agreed),)
    return _share(rule, agreed)


def _share(rule: CeilingRule, agreed: Decimal) -> tuple[Exact, tuple[Reason, ...]]:
    """A percentage of the agreed amount, at least the floor and at most the cap if the kind has them."""
    percent = _figure(rule, "percent")
    allowed = Fraction(agreed) * Fraction(percent) / 100
    steps = [Reason.of("percent", agreed=agreed, percent=percent)]
    needed = NEEDED_FIGURES[rule.kind]
    if "floor" in needed and (floor := _figure(rule, "floor")) > allowed:
        allowed = Fraction(floor)
        steps.append(Reason.of("floor", floor=floor))
    if "cap" in needed and (cap := _figure(rule, "cap")) < allowed:
        allowed = Fraction(cap)
        steps.append(Reason.of("cap", cap=cap))
    return allowed, tuple(steps)


def _figure(rule: CeilingRule, name: str) -> Decimal:
    figure: Decimal | None = getattr(rule, name)
    if figure is None:
        raise CalculationError("bad_rule", f"{rule.kind} without {name}")
    if exact(figure, name) < 0:
        raise CalculationError("bad_rule", f"{rule.kind} with {name} {figure}")
    return figure


def _check(ceiling_input: CeilingInput) -> None:
    if ceiling_input.rule.kind not in NEEDED_FIGURES:
        raise CalculationError("unknown_rule", ceiling_input.rule.kind)
    for name in NEEDED_FIGURES[ceiling_input.rule.kind]:
        _figure(ceiling_input.rule, name)
    for name in ("agreed", "used", "extra"):
        amount: Decimal = getattr(ceiling_input, name)
        if exact(amount, name) < 0:
            raise CalculationError("negative_amount", f"{name} {amount}")
