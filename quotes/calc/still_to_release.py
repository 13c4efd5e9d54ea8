"""The quantities of a proposal that no earlier release holds.

Units: quantities of a part in its own unit. A part is named by the number under which it is bought.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal, localcontext

from shop.calc.money import EXACT

NumberedQuantity = tuple[str, Decimal]
"""(the number under which a part is bought, how much of it)"""


def still_to_release(
    proposed: Sequence[NumberedQuantity], released: Iterable[NumberedQuantity], arrived: Iterable[NumberedQuantity] = ()
) -> tuple[Decimal, ...]:
    """The rest of each proposed quantity. Quantities on their way are subtracted from the first lines of their number
    first.

    On its way is the released quantity that has not `arrived` since its first release. Arrived quantities are
    subtracted from the released ones in the same way.
    """
    left: dict[str, Decimal] = {}
    rests = []
    with localcontext(EXACT):
        for number, quantity in released:
            left[number] = left.get(number, Decimal(0)) + quantity
        for number, quantity in arrived:
            left[number] = max(left.get(number, Decimal(0)) - quantity, Decimal(0))
        for number, quantity in proposed:
            covered = min(left.get(number, Decimal(0)), quantity)
            left[number] = left.get(number, Decimal(0)) - covered
            rests.append(quantity - covered)
    return tuple(rests)
