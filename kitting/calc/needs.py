"""What a job needs that is in no box: pooled over its kits, before packs are chosen (the calculation of packs).

Quantities are in the item's own unit: litres, millilitres, grams, pieces.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from kitting.calc.coolant import Mix, Refill, refill
from shop.calc.money import EXACT, rounded
from shop.calc.reason import Fact, Reason
from shop.calc.rules import CoolantRule

NOTHING = Decimal(0)
PI = Decimal("3.14159265359")


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One need of one kit. `item` is the consumable's or the part's id; `shared` if its operation is done once."""

    kit: str
    item: str
    rule: str
    quantity: Decimal
    of: str = ""
    charge: str = "pack"
    operation: str = ""
    shared: bool = False


@dataclass(frozen=True, slots=True)
class PooledNeed:
    """What is needed of one item over the whole job. `unknown` names the capacity that nobody has stated yet."""

    item: str
    charge: str
    quantity: Decimal
    kits: tuple[str, ...]
    operation: str
    reasons: tuple[Reason, ...]
    unknown: str = ""


@dataclass(frozen=True, slots=True)
class Circuits:
    """The vehicle's capacities in litres, and what a quote supposes of them."""

    capacities: Mapping[str, Decimal]
    coolant: CoolantRule
    bead_waste: Decimal


def pool_needs(rows: Sequence[NeedRow], circuits: Circuits) -> tuple[PooledNeed, ...]:
    """One entry an item and way of charging, in the order of the rows.

    Fluids of one circuit are changed once, however many kits ask for it; needs of an operation done once for several
    kits count once, at the most that any of them asks; all others are added.
    """
    grouped: dict[tuple[str, str], list[NeedRow]] = {}
    for row in rows:
        grouped.setdefault((row.item, row.charge), []).append(row)
    with localcontext(EXACT):
        mixes = _mixes(rows, circuits)
        return tuple(_pooled(item, charge, each, circuits, mixes) for (item, charge), each in grouped.items())


def _pooled(
    item: str, charge: str, rows: list[NeedRow], circuits: Circuits, mixes: Mapping[str, Mix | None]
) -> PooledNeed:
    quantity, reasons, unknown = NOTHING, [], ""
    for key, together in _by_occasion(rows).items():
        of = together[0].of
        if together[0].rule in ("refill", "refill_water"):
            amount, why = _of_mix(together[0].rule, of, mixes.get(of))
        elif together[0].rule == "of_capacity":
            amount, why = _of_capacity(together, circuits.capacities.get(of))
        else:
            amount, why = _counted(together, circuits, once=bool(key[1]))
        if amount is None:
            unknown = of
        else:
            quantity += amount
        reasons += why
    reasons = [*_for_fasteners(rows), *reasons]
    kits = tuple(sorted({row.kit for row in rows}))
    operation = next((row.operation for row in rows if row.operation), "")
    return PooledNeed(item, charge, quantity, kits, operation, tuple(reasons), unknown)


def _by_occasion(rows: Iterable[NeedRow]) -> dict[tuple[str, str], list[NeedRow]]:
    """Rows that are met on one occasion: one circuit, one shared operation, or all that is simply added."""
    found: dict[tuple[str, str], list[NeedRow]] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water", "of_capacity"):
            key = (row.rule, row.of)
        else:
            key = ("counted", row.operation if row.shared else "")
        found.setdefault(key, []).append(row)
    return found


def _counted(rows: list[NeedRow], circuits: Circuits, once: bool) -> tuple[Decimal, list[Reason]]:
    by_kit: dict[str, Decimal] = {}
    for row in rows:
        by_kit[row.kit] = by_kit.get(row.kit, NOTHING) + _amount(row, circuits)
    reasons = [_along(row) for row in rows if row.rule == "bead"]
    if once and len(by_kit) > 1:
        return max(by_kit.values()), [*reasons, Reason.of("need_once", kits=tuple(sorted(by_kit)))]
    return sum(by_kit.values(), NOTHING), reasons


def _amount(row: NeedRow, circuits: Circuits) -> Decimal:
    if row.rule == "per_fastener":
        return row.quantity * Decimal(row.of)
    if row.rule == "bead":  # a round bead: mL = pi/4 x mm^2 x m, and what stays in the nozzle
        return rounded(PI / 4 * Decimal(row.of) ** 2 * row.quantity * circuits.bead_waste, 1)
    return row.quantity


def _for_fasteners(rows: list[NeedRow]) -> list[Reason]:
    count = sum((Decimal(row.of) for row in rows if row.rule == "per_fastener"), NOTHING)
    return [Reason.of("need_per_fastener", count=count)] if count else []


def _along(row: NeedRow) -> Reason:
    return Reason.of("need_bead", quantity=row.quantity, of=row.of)


def _of_capacity(rows: list[NeedRow], capacity: Decimal | None) -> tuple[Decimal | None, list[Reason]]:
    if capacity is None:
        return None, []
    share = max(row.quantity for row in rows)
    code = "need_of_capacity" if share == 1 else "need_share_of_capacity"
    return capacity * share, [Reason.of(code, of=rows[0].of, capacity=capacity, percent=share * 100)]


def _mixes(rows: Iterable[NeedRow], circuits: Circuits) -> dict[str, Mix | None]:
    """One refill a circuit: what every kit adds to it, drained once. None where the capacity is not stated."""
    added: dict[str, Decimal] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water"):
            added[row.of] = added.get(row.of, NOTHING) + (row.quantity if row.rule == "refill" else NOTHING)
    return {of: _mix(circuits.capacities.get(of), litres, circuits.coolant) for of, litres in added.items()}


def _mix(capacity: Decimal | None, added: Decimal, rule: CoolantRule) -> Mix | None:
    if capacity is None:
        return None
    return refill(
        Refill(
            capacity_before=capacity,
            drained=rounded(capacity * rule.drained_share, 3),
            residual_concentration=rule.residual,
            target_concentration=rule.target,
            added_to_circuit=added,
            premix_concentration=rule.premix,
            order_allowance=rule.order_allowance,
            top_up=rule.top_up,
        )
    )


def _of_mix(rule: str, of: str, mix: Mix | None) -> tuple[Decimal | None, list[Reason]]:
    if mix is None:
        return None, []
    if mix.concentrate is None or mix.water is None or mix.order_concentrate is None:
        return NOTHING, [Reason.of(f"mix_{mix.status}", of=of, litres=mix.drain_at_least or NOTHING)]
    facts: dict[str, Fact] = {"of": of, "fill": mix.fill, "capacity": mix.capacity_after}
    if rule == "refill":
        return mix.order_concentrate, [Reason.of("need_refill", litres=mix.concentrate, **facts)]
    return mix.water, [Reason.of("need_refill_water", litres=mix.water, **facts)]
