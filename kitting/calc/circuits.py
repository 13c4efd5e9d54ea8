"""The coolant circuits of a job, with the assumptions of the quote. The phone works out the mix in the bay.

Litres; concentrations are shares of the volume; degrees Celsius. In JSON every figure is a string (the calculation of
coolant).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from decimal import Decimal, localcontext
from typing import Any, Literal

from kitting.calc.coolant import LITRES
from kitting.calc.freezing import Glycol
from kitting.calc.needs import CircuitAssumptions, NeedRow, added_by, glycol_of
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import plain

Scale = Literal["percent", "celsius"]
"""The scales of a refractometer: concentration in per cent, or freeze point in degrees Celsius."""


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
