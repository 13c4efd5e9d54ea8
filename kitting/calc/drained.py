"""The litres that a job drains, circuit by circuit (worked cases in fixtures/vectors/drained.json).

Units: capacities and results in litres, results to a millilitre; shares of a capacity.
"""

from collections.abc import Iterable
from decimal import Decimal, localcontext

from kitting.calc.coolant import LITRES
from kitting.calc.needs import CircuitAssumptions, NeedRow
from shop.calc.money import EXACT, rounded

ONE = Decimal(1)


def drained_litres(rows: Iterable[NeedRow], circuits: CircuitAssumptions) -> dict[str, Decimal | None]:
    """Name of a capacity -> the litres that run out of it; None where the vehicle's capacity is not recorded.

    A circuit is drained once, whatever number of kits ask for it. A refill drains the share of the rules; a fluid that
    is changed runs out as it goes in, and never more than the circuit holds. What fills a new circuit drains nothing.
    Refuses nothing: the rules have checked the share.
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
