"""How a quote's refill of one circuit came about, step by step (the calculation of coolant).

Codes and facts, litres and shares: `circuit` (of, litres), `drained` (share, before, litres), `stays` (litres,
concentration), `circuit_with` (added, litres), `fill` (after, stays, litres), `concentrate` (after, target, stays,
concentration, litres), `water` (fill, concentrate, litres), `order` (concentrate, allowance, top_up, target, litres).
"""

from collections.abc import Iterator
from decimal import Decimal

from kitting.calc.coolant import Mix, Refill
from shop.calc.reason import Reason


def refill_steps(of: str, drained_share: Decimal, given: Refill, mix: Mix, *, water: bool) -> Iterator[Reason]:
    """The steps to the concentrate that is ordered, or to the water; to what is missing where it cannot be mixed."""
    yield Reason.of("circuit", of=of, litres=given.capacity_before)
    yield Reason.of("drained", share=drained_share, before=given.capacity_before, litres=given.drained)
    strength = given.residual_concentration
    yield Reason.of("stays", litres=mix.residual, concentration=strength)
    if given.added_to_circuit:
        yield Reason.of("circuit_with", added=given.added_to_circuit, litres=mix.capacity_after)
    yield Reason.of("fill", after=mix.capacity_after, stays=mix.residual, litres=mix.fill)
    if mix.concentrate is None or mix.water is None or mix.order_concentrate is None:
        return
    yield Reason.of(
        "concentrate",
        after=mix.capacity_after,
        target=given.target_concentration,
        stays=mix.residual,
        concentration=strength,
        litres=mix.concentrate,
    )
    if water:
        yield Reason.of("water", fill=mix.fill, concentrate=mix.concentrate, litres=mix.water)
    else:
        yield Reason.of(
            "order",
            concentrate=mix.concentrate,
            allowance=given.order_allowance,
            top_up=given.top_up,
            target=given.target_concentration,
            litres=mix.order_concentrate,
        )
