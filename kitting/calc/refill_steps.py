"""The derivation of a quote's refill of one circuit, step by step (the calculation of coolant).

Codes and facts, litres and shares: `circuit` (of, litres), `drained` (share, before, litres), `stays` (litres,
concentration), `circuit_with` (added, litres), `fill` (after, stays, litres), `concentrate` (after, target, stays,
concentration, litres), `water` (fill, concentrate, litres), `order` (concentrate, allowance, top_up, target, litres).
"""

from collections.abc import Iterator
from decimal import Decimal

from kitting.calc.coolant import Mix, Refill
from shop.calc.reason import Reason


def refill_steps(of: str, drained_share: Decimal, refill_input: Refill, mix: Mix, *, water: bool) -> Iterator[Reason]:
    """The steps to the concentrate to order, or to the water. They end early if the target cannot be mixed."""
    yield Reason.of("circuit", of=of, litres=refill_input.capacity_before)
    yield Reason.of("drained", share=drained_share, before=refill_input.capacity_before, litres=refill_input.drained)
    strength = refill_input.residual_concentration
    yield Reason.of("stays", litres=mix.residual, concentration=strength)
    if refill_input.added_to_circuit:
        yield Reason.of("circuit_with", added=refill_input.added_to_circuit, litres=mix.capacity_after)
    yield Reason.of("fill", after=mix.capacity_after, stays=mix.residual, litres=mix.fill)
    if mix.concentrate is None or mix.water is None or mix.order_concentrate is None:
        return
    yield Reason.of(
        "concentrate",
        after=mix.capacity_after,
        target=refill_input.target_concentration,
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
            allowance=refill_input.order_allowance,
            top_up=refill_input.top_up,
            target=refill_input.target_concentration,
            litres=mix.order_concentrate,
        )
