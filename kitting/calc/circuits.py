"""The coolant circuits of a job: the assumptions of the quote, and the mix from what the bay measures.

Litres; concentrations are shares of the volume; degrees Celsius. In JSON every figure is a string (the calculation of
coolant).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from decimal import Decimal, localcontext
from typing import Any, Literal, get_args

from kitting.calc.coolant import LITRES, Mix, Refill, refill
from kitting.calc.freezing import Glycol, concentration_at
from kitting.calc.needs import CircuitAssumptions, NeedRow, added_by, glycol_of
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import plain

Scale = Literal["percent", "celsius"]
SCALES: tuple[Scale, ...] = get_args(Scale)


@dataclass(frozen=True, slots=True)
class Circuit:
    """One circuit as sold. `of` is the capacity's name, `title` the concentrate's, `added` the kits' volume.

    `capacity` is None if it was not recorded. `drained_share` and `residual` are assumptions.
    """

    of: str
    title: str
    glycol: Glycol | None
    capacity: Decimal | None
    added: Decimal
    target: Decimal
    residual: Decimal
    drained_share: Decimal
    premix: Decimal
    order_allowance: Decimal
    top_up: Decimal

    @property
    def drained(self) -> Decimal | None:
        """The litres that the quote assumed to drain."""
        return None if self.capacity is None else rounded(self.capacity * self.drained_share, LITRES)

    @property
    def after(self) -> Decimal | None:
        """The circuit's volume once the kits are fitted."""
        return None if self.capacity is None else self.capacity + self.added


@dataclass(frozen=True, slots=True)
class CircuitMeasurement:
    """Two measurements: the litres drained, and the refractometer's reading in per cent or degrees Celsius."""

    drained: Decimal
    reading: Decimal
    scale: Scale = "percent"


@dataclass(frozen=True, slots=True)
class BayMix:
    """The mix for a measurement. `concentrate_needed` reaches the target, whether there is room for it or not.

    If there is not: `drain_more` is the rest up to `mix.drain_at_least`, `may_stay` the old mix that then remains, and
    `then_fill` the volume to pour in afterwards.
    """

    refill: Refill
    mix: Mix
    concentrate_needed: Decimal
    drain_more: Decimal | None = None
    may_stay: Decimal | None = None
    then_fill: Decimal | None = None


def sold_circuits(
    rows: Sequence[NeedRow], circuits: CircuitAssumptions, titles: Mapping[str, str]
) -> tuple[Circuit, ...]:
    """One entry for each circuit that the kits refill, in the order of the rows.

    `titles` are the items' titles by id.
    """
    rows_by_circuit: dict[str, list[NeedRow]] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water"):
            rows_by_circuit.setdefault(row.of, []).append(row)
    with localcontext(EXACT):
        return tuple(_circuit(of, circuit_rows, circuits, titles) for of, circuit_rows in rows_by_circuit.items())


def _circuit(of: str, rows: Sequence[NeedRow], circuits: CircuitAssumptions, titles: Mapping[str, str]) -> Circuit:
    assumed = circuits.coolant
    concentrates = dict.fromkeys(titles[row.item] for row in rows if row.rule == "refill")
    return Circuit(
        of=of,
        title="; ".join(concentrates),
        glycol=glycol_of(rows),
        capacity=circuits.capacities.get(of),
        added=added_by(rows),
        target=assumed.target,
        residual=assumed.residual,
        drained_share=assumed.drained_share,
        premix=assumed.premix,
        order_allowance=assumed.order_allowance,
        top_up=assumed.top_up,
    )


def bay_mix(circuit: Circuit, measured: CircuitMeasurement) -> BayMix:
    """The mix that brings the circuit to its target concentration.

    Refuses `capacity_unknown` (not recorded), `glycol_unknown` (degrees mean nothing without it),
    `residual_out_of_range` (a reading outside the scale) and what `refill` refuses.
    """
    if circuit.capacity is None:
        raise CalculationError("capacity_unknown", circuit.of)
    refill_input = Refill(
        capacity_before=circuit.capacity,
        drained=measured.drained,
        residual_concentration=_concentration(measured, circuit.glycol),
        target_concentration=circuit.target,
        added_to_circuit=circuit.added,
        premix_concentration=circuit.premix,
        order_allowance=circuit.order_allowance,
        top_up=circuit.top_up,
        glycol=circuit.glycol,
    )
    mix = refill(refill_input)
    with localcontext(EXACT):
        stayed = (refill_input.capacity_before - refill_input.drained) * refill_input.residual_concentration
        concentrate = (
            refill_input.capacity_before + refill_input.added_to_circuit
        ) * refill_input.target_concentration - stayed
        without_more_draining = BayMix(refill_input, mix, rounded(concentrate, LITRES))
        at_least = mix.drain_at_least
        if at_least is None:
            return without_more_draining
        may_stay = refill_input.capacity_before - at_least
        return replace(
            without_more_draining,
            drain_more=at_least - refill_input.drained,
            may_stay=may_stay,
            then_fill=at_least + refill_input.added_to_circuit,
        )


def _concentration(measured: CircuitMeasurement, glycol: Glycol | None) -> Decimal:
    if measured.scale == "celsius":
        if glycol is None:
            raise CalculationError("glycol_unknown", plain(measured.reading))
        return concentration_at(measured.reading, glycol)
    if not 0 <= measured.reading <= 100:
        raise CalculationError("residual_out_of_range", plain(measured.reading))
    with localcontext(EXACT):
        return measured.reading / 100


def with_capacity(circuit: Circuit, stated: Decimal | None) -> Circuit:
    """The circuit with the vehicle's present capacity, if it is recorded."""
    return circuit if stated is None else replace(circuit, capacity=stated)


def circuit_json(circuit: Circuit) -> dict[str, str | None]:
    """The circuit as frozen quotes and jobs store it. `drained` is stored for display only."""
    values = {field.name: getattr(circuit, field.name) for field in fields(Circuit)}
    values["drained"] = circuit.drained
    return {name: plain(value) if isinstance(value, Decimal) else value for name, value in values.items()}


def circuit_from(content: Mapping[str, Any]) -> Circuit:
    """The inverse of `circuit_json`."""
    return Circuit(
        of=content["of"],
        title=content["title"],
        glycol=content["glycol"],
        capacity=None if content["capacity"] is None else Decimal(content["capacity"]),
        added=Decimal(content["added"]),
        target=Decimal(content["target"]),
        residual=Decimal(content["residual"]),
        drained_share=Decimal(content["drained_share"]),
        premix=Decimal(content["premix"]),
        order_allowance=Decimal(content["order_allowance"]),
        top_up=Decimal(content["top_up"]),
    )
