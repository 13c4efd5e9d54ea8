"""The litres that a job drains from each circuit (worked cases in fixtures/vectors/drained.json).

Units: capacities and results in litres, results rounded to a millilitre; shares of a capacity.
"""

from collections.abc import Iterable
from decimal import Decimal, localcontext

from kitting.calc.coolant import LITRES
from kitting.calc.needs import CircuitAssumptions, NeedRow
from shop.calc.money import EXACT, rounded

ONE = Decimal(1)


def drained_litres(rows: Iterable[NeedRow], circuits: CircuitAssumptions) -> dict[str, Decimal | None]:
    """Maps a capacity's name to the litres drained from it; None if the vehicle's capacity is not recorded.

    Each circuit is drained once, however many kits need it. A refill drains the share of the rules. A fluid change
    drains what it fills, and never more than the circuit holds. Filling a new circuit drains nothing. Refuses nothing:
    the rules have checked the share.
    """
    shares: dict[str, Decimal] = {}
    for row in rows:
        if row.rule in ("refill", "refill_water"):
            share = circuits.coolant.drained_share
        elif row.rule == "of_capacity":
            share = min(row.quantity, ONE)
        else:
            continue
        shares[row.of] = max(share, shares.get(row.of, share))
    return {of: _litres(circuits.capacities.get(of), share) for of, share in shares.items()}


def _litres(capacity: Decimal | None, share: Decimal) -> Decimal | None:
    if capacity is None:
        return None
    with localcontext(EXACT):
        return rounded(capacity * share, LITRES)
