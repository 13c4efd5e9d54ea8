"""Refilling a cooling circuit after a partial drain: the calculation of coolant (fixtures/vectors/coolant.json).

Units: volumes in litres, concentrations as a share of the volume (0.5 is 50 %), freeze points in degrees Celsius.
Fractions are used inside, so that nothing is rounded before the result: volumes to 0.001, concentrations to 0.0001,
freeze points to 0.1.
"""

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import Literal

from kitting.calc.freezing import SHARES, Glycol, freeze_point
from shop.calc.errors import CalculationError
from shop.calc.money import rounded

Status = Literal["ok", "drain_more", "too_strong"]

LITRES = 3


@dataclass(frozen=True, slots=True)
class Refill:
    """The input of a refill: capacity and concentration before, litres drained, and the target."""

    capacity_before: Decimal
    drained: Decimal
    residual_concentration: Decimal
    target_concentration: Decimal
    added_to_circuit: Decimal = Decimal(0)
    premix_concentration: Decimal = Decimal("0.5")
    aux_circuit: Decimal = Decimal(0)
    aux_allowance: Decimal = Decimal("0.05")
    order_allowance: Decimal = Decimal("0.05")
    top_up: Decimal = Decimal(0)
    glycol: Glycol | None = None


@dataclass(frozen=True, slots=True)
class Mix:
    """The litres to pour in and to order.

    If `status` is not `ok`, `drain_at_least` is the total to drain, and the amounts to pour and to order are None.
    There are two ways to fill: `concentrate` and `water`, or `premix` with `premix_concentrate` or `premix_water`.
    """

    status: Status
    residual: Decimal
    capacity_after: Decimal
    fill: Decimal
    aux_premix: Decimal
    premix_only_concentration: Decimal | None
    drain_at_least: Decimal | None = None
    concentrate: Decimal | None = None
    water: Decimal | None = None
    premix: Decimal | None = None
    premix_concentrate: Decimal | None = None
    premix_water: Decimal | None = None
    order_concentrate: Decimal | None = None
    order_premix: Decimal | None = None
    target_freeze: Decimal | None = None
    premix_only_freeze: Decimal | None = None


@dataclass(frozen=True, slots=True)
class _Circuit:
    """The refill in exact volumes: residual R, capacity V afterwards, fill F, concentrate A to add."""

    before: Fraction
    residual: Fraction
    after: Fraction
    strength: Fraction
    target: Fraction
    premix: Fraction

    @property
    def fill(self) -> Fraction:
        return self.after - self.residual

    @property
    def concentrate(self) -> Fraction:
        return self.after * self.target - self.residual * self.strength

    @property
    def premix_concentrate(self) -> Fraction:
        """The concentrate to add to premix; negative if premix alone is too strong."""
        return (self.concentrate - self.fill * self.premix) / (1 - self.premix)

    @property
    def premix_only(self) -> Fraction | None:
        """The concentration after filling with premix alone; None for a circuit without volume."""
        if self.after == 0:
            return None
        return (self.residual * self.strength + self.fill * self.premix) / self.after


def refill(refill_input: Refill) -> Mix:
    """The mix that brings the circuit to its target, by concentrate and water and by premix.

    Refuses `target_out_of_range` (outside 0.30-0.65), `drained_out_of_range` (outside 0-capacity),
    `premix_out_of_range` (not between 0 and 1), `residual_out_of_range` (outside 0-1), each with the figure.
    """
    _check(refill_input)
    circuit = _circuit(refill_input)
    aux = Fraction(refill_input.aux_circuit) * (1 + Fraction(refill_input.aux_allowance))
    premix_only = circuit.premix_only
    common = Mix(
        status=_status(circuit),
        residual=rounded(circuit.residual, LITRES),
        capacity_after=rounded(circuit.after, LITRES),
        fill=rounded(circuit.fill, LITRES),
        aux_premix=rounded(aux, LITRES),
        premix_only_concentration=None if premix_only is None else rounded(premix_only, SHARES),
        target_freeze=freeze_point(circuit.target, refill_input.glycol),
        premix_only_freeze=freeze_point(premix_only, refill_input.glycol),
    )
    if common.status != "ok":
        return replace(common, drain_at_least=_drain_at_least(circuit, common.status))
    return _poured(common, circuit, refill_input, aux)


def _check(refill_input: Refill) -> None:
    if not Decimal("0.30") <= refill_input.target_concentration <= Decimal("0.65"):
        raise CalculationError("target_out_of_range", str(refill_input.target_concentration))
    if not 0 <= refill_input.drained <= refill_input.capacity_before:
        raise CalculationError("drained_out_of_range", str(refill_input.drained))
    if not 0 < refill_input.premix_concentration < 1:
        raise CalculationError("premix_out_of_range", str(refill_input.premix_concentration))
    if not 0 <= refill_input.residual_concentration <= 1:
        raise CalculationError("residual_out_of_range", str(refill_input.residual_concentration))


def _circuit(refill_input: Refill) -> _Circuit:
    before = Fraction(refill_input.capacity_before)
    return _Circuit(
        before=before,
        residual=before - Fraction(refill_input.drained),
        after=before + Fraction(refill_input.added_to_circuit),
        strength=Fraction(refill_input.residual_concentration),
        target=Fraction(refill_input.target_concentration),
        premix=Fraction(refill_input.premix_concentration),
    )


def _status(circuit: _Circuit) -> Status:
    if circuit.concentrate > circuit.fill:
        return "drain_more"
    return "too_strong" if circuit.concentrate < 0 else "ok"


def _drain_at_least(circuit: _Circuit, status: Status) -> Decimal:
    """The drained volume from which pure concentrate, or pure water, reaches the target."""
    if status == "drain_more":
        may_stay = circuit.after * (1 - circuit.target) / (1 - circuit.strength)
    else:
        may_stay = circuit.after * circuit.target / circuit.strength
    return rounded(Fraction(ceil((circuit.before - may_stay) * 1000), 1000), LITRES)


def _poured(common: Mix, circuit: _Circuit, refill_input: Refill, aux: Fraction) -> Mix:
    concentrate = rounded(circuit.concentrate, LITRES)
    extra = rounded(max(circuit.premix_concentrate, Fraction(0)), LITRES)
    exact_premix = _premix(circuit)
    # The rest is worked out from the rounded figures, so that a column always adds up.
    premix = common.fill - extra if circuit.premix_concentrate >= 0 else rounded(exact_premix, LITRES)
    allowance, top_up = 1 + Fraction(refill_input.order_allowance), Fraction(refill_input.top_up)
    return replace(
        common,
        concentrate=concentrate,
        water=common.fill - concentrate,
        premix=premix,
        premix_concentrate=extra,
        premix_water=common.fill - premix - extra,
        order_concentrate=rounded(circuit.concentrate * allowance + top_up * circuit.target, LITRES),
        order_premix=rounded(exact_premix * allowance + top_up + aux, LITRES),
    )


def _premix(circuit: _Circuit) -> Fraction:
    if circuit.premix_concentrate >= 0:
        return circuit.fill - circuit.premix_concentrate
    return circuit.concentrate / circuit.premix
