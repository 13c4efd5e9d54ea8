"""The lots to open for a need, first expired first out: the calculation named lots (fixtures/vectors/lots.json).

Units: quantities in one unit of the specification, exact; dates are the workshop's own, without a time of day.
"""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal, localcontext

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT
from shop.calc.quantity import exact
from shop.calc.reason import Reason

_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Lot:
    """A tin or a batch of tins, usable through `expires` (None: no date).

    For an opened tin the caller passes the earlier of its printed date and its opening plus the keeping time.
    """

    id: str
    quantity: Decimal
    expires: date | None = None
    opened: bool = False


@dataclass(frozen=True, slots=True)
class LotInput:
    """The lots of one specification in list order, and the `need` on the day `today`."""

    lots: tuple[Lot, ...]
    need: Decimal
    today: date


@dataclass(frozen=True, slots=True)
class LotQuantity:
    """A `quantity` above zero from the lot `id`."""

    id: str
    quantity: Decimal


@dataclass(frozen=True, slots=True)
class LotSelection:
    """The lots to take from, in order. `short` is the part of the need that no usable lot covers.

    `expired` are the ids of lots that are not empty and may not be used, in list order. `next_expiry` is the earliest
    date of the usable rest. `steps` hold, for each lot taken, `opened` (lot, quantity) or `sealed` (lot, quantity),
    with `expires` if it has a date; then `expired` (lot, expires) for each expired lot, and `short` (quantity).
    """

    take: tuple[LotQuantity, ...]
    short: Decimal
    expired: tuple[str, ...]
    next_expiry: date | None
    steps: tuple[Reason, ...]


def take_lots(lot_input: LotInput) -> LotSelection:
    """The lots that meet the need, first expired first out.

    Refuses `bad_quantity` (a lot and its quantity, or the need, below zero), `duplicate_lot` (the id), `not_exact`.
    """
    _check(lot_input)
    stocked = [lot for lot in lot_input.lots if lot.quantity > 0]
    usable = sorted((lot for lot in stocked if not _is_expired(lot, lot_input.today)), key=_turn)
    expired = [lot for lot in stocked if _is_expired(lot, lot_input.today)]
    with localcontext(EXACT):
        quantities = _quantities(usable, lot_input.need)
        short = lot_input.need - sum(quantities, _NOTHING)
    turns = list(zip(usable, quantities, strict=True))
    return LotSelection(
        take=tuple(LotQuantity(lot.id, quantity) for lot, quantity in turns if quantity),
        short=short,
        expired=tuple(lot.id for lot in expired),
        next_expiry=_earliest([lot for lot, quantity in turns if quantity < lot.quantity]),
        steps=(
            *(_taken(lot, quantity) for lot, quantity in turns if quantity),
            *(Reason.of("expired", lot=lot.id, expires=str(lot.expires)) for lot in expired),
            *([Reason.of("short", quantity=short)] if short else []),
        ),
    )


def _is_expired(lot: Lot, today: date) -> bool:
    return lot.expires is not None and lot.expires < today


def _turn(lot: Lot) -> tuple[date, bool, bool]:
    """The sort key: the earliest date first and none last; for equal dates opened lots first.

    Ties keep the list's order.
    """
    return lot.expires or date.max, lot.expires is None, not lot.opened


def _quantities(lots: list[Lot], need: Decimal) -> list[Decimal]:
    """The quantity taken from each lot, in order, until the need is met."""
    quantities = []
    for lot in lots:
        quantity = min(lot.quantity, need)
        quantities.append(quantity)
        need -= quantity
    return quantities


def _earliest(lots: list[Lot]) -> date | None:
    return min((lot.expires for lot in lots if lot.expires is not None), default=None)


def _taken(lot: Lot, quantity: Decimal) -> Reason:
    code = "opened" if lot.opened else "sealed"
    if lot.expires is None:
        return Reason.of(code, lot=lot.id, quantity=quantity)
    return Reason.of(code, lot=lot.id, quantity=quantity, expires=lot.expires.isoformat())


def _check(lot_input: LotInput) -> None:
    seen: set[str] = set()
    for lot in lot_input.lots:
        if lot.id in seen:
            raise CalculationError("duplicate_lot", lot.id)
        seen.add(lot.id)
        if exact(lot.quantity, lot.id) < 0:
            raise CalculationError("bad_quantity", f"{lot.id}: {lot.quantity}")
    if exact(lot_input.need, "need") < 0:
        raise CalculationError("bad_quantity", f"need: {lot_input.need}")
