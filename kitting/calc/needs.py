"""Needs of a job that no kit includes, pooled over its kits before packs are chosen (the calculation of packs).

Quantities are in the item's own unit: litres, millilitres, grams, pieces.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from kitting.calc.coolant import Mix, Refill, refill
from kitting.calc.freezing import Glycol
from kitting.calc.refill_steps import refill_steps
from shop.calc.money import EXACT, rounded
from shop.calc.reason import Fact, Reason
from shop.calc.rules import CoolantRule

NOTHING = Decimal(0)
PI = Decimal("3.14159265359")


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One need of one kit. `item` is the id of the consumable or part.

    `shared`: its operation is done once for all kits. `glycol` is the kind that the consumable's specification names.
    """

    kit: str
    item: str
    rule: str
    quantity: Decimal
    of: str = ""
    charge: str = "pack"
    operation: str = ""
    shared: bool = False
    glycol: Glycol | None = None


@dataclass(frozen=True, slots=True)
class PooledNeed:
    """The quantity of one item for the whole job. `unknown` names a capacity that is not recorded.

    `steps` derive the quantity from each request: `ask` (kit, quantity), `ask_per_fastener` (kit, each, count,
    quantity), `ask_bead` (kit, metres, width, waste, quantity), each with `work`, the operation's code, if it has one;
    `at_most` (kits, quantity), `share_of_capacity` (of, capacity, share, quantity) and the steps of a refill
    (see `refill_steps`).
    """

    item: str
    charge: str
    quantity: Decimal
    kits: tuple[str, ...]
    operation: str
    reasons: tuple[Reason, ...]
    steps: tuple[Reason, ...] = ()
    unknown: str = ""


@dataclass(frozen=True, slots=True)
class CircuitAssumptions:
    """The vehicle's capacities in litres, and the assumptions of a quote about them."""

    capacities: Mapping[str, Decimal]
    coolant: CoolantRule
    bead_waste: Decimal


def pool_needs(rows: Sequence[NeedRow], circuits: CircuitAssumptions) -> tuple[PooledNeed, ...]:
    """One entry for each item and way of charging, in the order of the rows.

    Each circuit's fluid is changed once, however many kits need it. Needs of an operation that is done once for several
    kits count once, at the largest quantity. All other needs are added.
    """
    grouped: dict[tuple[str, str], list[NeedRow]] = {}
    for row in rows:
        grouped.setdefault((row.item, row.charge), []).append(row)
    with localcontext(EXACT):
        mixes = _mixes(rows, circuits)
        return tuple(_pooled(item, charge, item_rows, circuits, mixes) for (item, charge), item_rows in grouped.items())


@dataclass(frozen=True, slots=True)
class _OccasionNeed:
    """The quantity for one occasion; None if it depends on a capacity that is not recorded."""

    quantity: Decimal | None
    reasons: tuple[Reason, ...]
    steps: tuple[Reason, ...]
    askers: tuple[str, ...] = ()  # the kits that need a stated quantity, and not a circuit's volume


def _pooled(
    item: str, charge: str, rows: list[NeedRow], circuits: CircuitAssumptions, mixes: Mapping[str, "_Circuit"]
) -> PooledNeed:
    occasions, unknown = [], ""
    for key, together in _by_occasion(rows).items():
        occasion = _need_on_occasion(together, circuits, mixes, once=bool(key[1]))
        occasions.append(occasion)
        if occasion.quantity is None:
            unknown = together[0].of
    return PooledNeed(
        item,
        charge,
        quantity=sum((occasion.quantity for occasion in occasions if occasion.quantity is not None), NOTHING),
        kits=tuple(sorted({row.kit for row in rows})),
        operation=next((row.operation for row in rows if row.operation), ""),
        reasons=(
            *_for_fasteners(rows),
            *(reason for occasion in occasions for reason in occasion.reasons),
            *_besides(occasions),
        ),
        steps=tuple(step for occasion in occasions for step in occasion.steps),
        unknown=unknown,
    )


def _besides(occasions: Sequence[_OccasionNeed]) -> list[Reason]:
    """The reason for the quantity in addition to a circuit's, so that the reasons add up to the whole quantity."""
    counted = [occasion for occasion in occasions if occasion.askers]
    if not counted or len(counted) == len(occasions):
        return []
    kits = tuple(sorted({kit for occasion in counted for kit in occasion.askers}))
    more = sum((occasion.quantity for occasion in counted if occasion.quantity is not None), NOTHING)
    return [Reason.of("need_besides", quantity=more, kits=kits)]


def _need_on_occasion(
    rows: list[NeedRow], circuits: CircuitAssumptions, mixes: Mapping[str, "_Circuit"], once: bool
) -> _OccasionNeed:
    rule, of = rows[0].rule, rows[0].of
    if rule in ("refill", "refill_water"):
        return _of_mix(rule, of, mixes.get(of), circuits.coolant)
    if rule == "of_capacity":
        return _of_capacity(rows, circuits.capacities.get(of))
    return _counted(rows, circuits, once)


def _by_occasion(rows: Iterable[NeedRow]) -> dict[tuple[str, str], list[NeedRow]]:
    """Groups the rows by occasion: one circuit, one shared operation, or all other rows together."""
    rows_by_occasion: dict[tuple[str, str], list[NeedRow]] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water", "of_capacity"):
            key = (row.rule, row.of)
        else:
            key = ("counted", row.operation if row.shared else "")
        rows_by_occasion.setdefault(key, []).append(row)
    return rows_by_occasion


def _counted(rows: list[NeedRow], circuits: CircuitAssumptions, once: bool) -> _OccasionNeed:
    by_kit: dict[str, Decimal] = {}
    for row in rows:
        by_kit[row.kit] = by_kit.get(row.kit, NOTHING) + _amount(row, circuits)
    reasons = tuple(_along(row) for row in rows if row.rule == "bead")
    asks = tuple(_ask(row, circuits) for row in rows)
    if once and len(by_kit) > 1:
        kits = tuple(sorted(by_kit))
        most = max(by_kit.values())
        shared = Reason.of("need_once", kits=kits)
        steps = (*asks, Reason.of("at_most", kits=kits, quantity=most))
        return _OccasionNeed(most, (*reasons, shared), steps, kits)
    return _OccasionNeed(sum(by_kit.values(), NOTHING), reasons, asks, tuple(by_kit))


def _ask(row: NeedRow, circuits: CircuitAssumptions) -> Reason:
    facts: dict[str, Fact] = {"kit": row.kit, "quantity": _amount(row, circuits)}
    if row.operation:
        facts["work"] = row.operation
    if row.rule == "per_fastener":
        return Reason.of("ask_per_fastener", **facts, each=row.quantity, count=Decimal(row.of))
    if row.rule == "bead":
        return Reason.of("ask_bead", **facts, metres=row.quantity, width=row.of, waste=circuits.bead_waste)
    return Reason.of("ask", **facts)


def _amount(row: NeedRow, circuits: CircuitAssumptions) -> Decimal:
    if row.rule == "per_fastener":
        return row.quantity * Decimal(row.of)
    if row.rule == "bead":  # a round bead: mL = pi/4 x mm^2 x m, times the waste factor of the nozzle
        return rounded(PI / 4 * Decimal(row.of) ** 2 * row.quantity * circuits.bead_waste, 1)
    return row.quantity


def _for_fasteners(rows: list[NeedRow]) -> list[Reason]:
    count = sum((Decimal(row.of) for row in rows if row.rule == "per_fastener"), NOTHING)
    return [Reason.of("need_per_fastener", count=count)] if count else []


def _along(row: NeedRow) -> Reason:
    return Reason.of("need_bead", quantity=row.quantity, of=row.of)


def _of_capacity(rows: list[NeedRow], capacity: Decimal | None) -> _OccasionNeed:
    if capacity is None:
        return _OccasionNeed(None, (), ())
    share, of = max(row.quantity for row in rows), rows[0].of
    code = "need_of_capacity" if share == 1 else "need_share_of_capacity"
    amount = capacity * share
    return _OccasionNeed(
        amount,
        (Reason.of(code, of=of, capacity=capacity, percent=share * 100),),
        (Reason.of("share_of_capacity", of=of, capacity=capacity, share=share, quantity=amount),),
    )


_Circuit = tuple[Refill, Mix] | None  # None if the capacity is not recorded


def _mixes(rows: Sequence[NeedRow], circuits: CircuitAssumptions) -> dict[str, _Circuit]:
    return {
        of: (refill_input, refill(refill_input)) if refill_input else None
        for of, refill_input in refills(rows, circuits).items()
    }


def refills(rows: Sequence[NeedRow], circuits: CircuitAssumptions) -> dict[str, Refill | None]:
    """One refill for each circuit: drained once, with the sum of all additions.

    None if the capacity is not recorded.
    """
    rows_by_circuit: dict[str, list[NeedRow]] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water"):
            rows_by_circuit.setdefault(row.of, []).append(row)
    return {
        of: _refill(circuits.capacities.get(of), circuit_rows, circuits.coolant)
        for of, circuit_rows in rows_by_circuit.items()
    }


def _refill(capacity: Decimal | None, rows: list[NeedRow], rule: CoolantRule) -> Refill | None:
    if capacity is None:
        return None
    return Refill(
        capacity_before=capacity,
        drained=rounded(capacity * rule.drained_share, 3),
        residual_concentration=rule.residual,
        target_concentration=rule.target,
        added_to_circuit=added_by(rows),
        premix_concentration=rule.premix,
        order_allowance=rule.order_allowance,
        top_up=rule.top_up,
        glycol=glycol_of(rows),
    )


def added_by(rows: Iterable[NeedRow]) -> Decimal:
    """The litres by which the kits enlarge a circuit."""
    return sum((row.quantity for row in rows if row.rule == "refill"), NOTHING)


def glycol_of(rows: Iterable[NeedRow]) -> Glycol | None:
    """The common glycol of all concentrates of a circuit; None if one is unknown or they differ."""
    named = {row.glycol for row in rows if row.rule == "refill"}
    return next(iter(named)) if len(named) == 1 else None


def _of_mix(rule: str, of: str, circuit: _Circuit, assumed: CoolantRule) -> _OccasionNeed:
    if circuit is None:
        return _OccasionNeed(None, (), ())
    refill_input, mix = circuit
    steps = tuple(refill_steps(of, assumed.drained_share, refill_input, mix, water=rule == "refill_water"))
    if mix.concentrate is None or mix.water is None or mix.order_concentrate is None:
        percent, litres = refill_input.target_concentration * 100, mix.drain_at_least or NOTHING
        return _OccasionNeed(NOTHING, (Reason.of(f"mix_{mix.status}", of=of, percent=percent, litres=litres),), steps)
    facts: dict[str, Fact] = {"of": of, "fill": mix.fill, "capacity": mix.capacity_after}
    facts |= {"concentrate": mix.concentrate, "water": mix.water, "order": mix.order_concentrate}
    why = (Reason.of(f"need_{rule}", **facts), *_protection(refill_input, mix))
    return _OccasionNeed(mix.order_concentrate if rule == "refill" else mix.water, why, steps)


def _protection(refill_input: Refill, mix: Mix) -> tuple[Reason, ...]:
    if mix.target_freeze is None:
        return ()
    return (Reason.of("protects", degrees=mix.target_freeze, percent=refill_input.target_concentration * 100),)
