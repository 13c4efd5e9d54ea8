"""Works out how far a job can go with the parts on the shelf: the calculation of readiness.

Worked cases: fixtures/vectors/readiness.json. Units: quantities in each item's own unit, hours as billed, `buffer` in
minutes; instants carry their zone.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from decimal import Decimal, localcontext
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT
from shop.calc.network import walk

Verdict = Literal["complete", "start", "start_on_arrivals", "start_to_hold", "hold"]
Amounts = Mapping[str, Decimal]
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class SheetOperation:
    """One operation of the job sheet and the items that it needs.

    After a `no_return` the vehicle cannot move until the next `mobile_again`, which may be itself.
    """

    code: str
    hours: Decimal
    after: tuple[str, ...] = ()
    needs: Amounts = field(default_factory=dict)
    no_return: bool = False
    mobile_again: bool = False


@dataclass(frozen=True, slots=True)
class Delivery:
    """A delivery of `amount`; None: all that is missing."""

    at: datetime
    amount: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ReadinessInput:
    """The job sheet, the stock on hand, and the deliveries.

    `starts` are the starts of the operations if work began now; `minor` items never block. `due` is a delivery of all
    that is missing of an item; `deliveries`, soonest first, bring it in several parts.
    """

    operations: tuple[SheetOperation, ...]
    on_hand: Amounts
    minor: frozenset[str] = frozenset()
    due: Mapping[str, datetime] = field(default_factory=dict)
    deliveries: Mapping[str, tuple[Delivery, ...]] = field(default_factory=dict)
    starts: Mapping[str, datetime] = field(default_factory=dict)
    buffer: int = 0


@dataclass(frozen=True, slots=True)
class BlockedOperation:
    """An operation that lacks items, and the quantity of each that was missing at its turn."""

    code: str
    missing: Amounts


@dataclass(frozen=True, slots=True)
class Arrival:
    """A delivery that `code` needs, `slack_minutes` (whole minutes, rounded down) before its start."""

    code: str
    item: str
    due: datetime
    needed_at: datetime
    slack_minutes: int


@dataclass(frozen=True, slots=True)
class Readiness:
    """The verdict and its basis; codes in topological order, amounts by item and above zero.

    `covered` are the operations that are clear or will be after arrivals in time. `held_by` are the other operations of
    the held window.
    """

    verdict: Verdict
    clear: tuple[str, ...]
    cleared_hours: Decimal
    total_hours: Decimal
    blocked: tuple[BlockedOperation, ...]
    hold_before: str | None
    arrivals: tuple[Arrival, ...]
    minor_missing: Amounts
    short: Amounts
    covered: tuple[str, ...]
    held_by: tuple[str, ...]


@dataclass(slots=True)
class _SheetState:
    """The sheet in topological order, and the stock that the clear operations leave."""

    order: tuple[SheetOperation, ...]
    stock: dict[str, Decimal]
    clear: dict[str, SheetOperation] = field(default_factory=dict)
    blocked: list[BlockedOperation] = field(default_factory=list)
    minor_missing: dict[str, Decimal] = field(default_factory=dict)


def judge_readiness(sheet: ReadinessInput) -> Readiness:
    """The clear operations, the blocked ones, and the verdict whether to start.

    Refuses `bad_quantity` (a need that is negative or not finite: operation and item) and, from the network of
    operations, `loop` (its codes in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
    """
    for operation in sheet.operations:
        _check_needs(operation)
    with localcontext(EXACT):
        walked = _walk(sheet)
        covered, arrivals = _covered(walked, sheet)
        window = _in_windows(walked.order)
        hold_before = _hold_before(walked.order, covered)
        return Readiness(
            verdict=_verdict(walked, window, hold_before),
            clear=tuple(walked.clear),
            cleared_hours=sum((operation.hours for operation in walked.clear.values()), _NOTHING),
            total_hours=sum((operation.hours for operation in sheet.operations), _NOTHING),
            blocked=tuple(walked.blocked),
            hold_before=hold_before,
            arrivals=tuple(arrival for arrival in arrivals if arrival.code in window),
            minor_missing=walked.minor_missing,
            short=_short(sheet),
            covered=tuple(operation.code for operation in walked.order if operation.code in covered),
            held_by=_held_by(walked.order, hold_before, covered),
        )


def _check_needs(operation: SheetOperation) -> None:
    for item, need in operation.needs.items():
        if not need.is_finite() or need < 0:
            raise CalculationError("bad_quantity", f"{operation.code} {item}: {need}")


def _walk(sheet: ReadinessInput) -> _SheetState:
    shelf = {item: max(amount, _NOTHING) for item, amount in sheet.on_hand.items()}
    walked = _SheetState(walk(sheet.operations), shelf)
    for operation in walked.order:
        missing = _missing(operation, walked.stock, sheet.minor)
        if missing:
            walked.blocked.append(BlockedOperation(operation.code, missing))
        elif all(code in walked.clear for code in operation.after):
            walked.clear[operation.code] = operation
            _note_minor(operation, walked, sheet.minor)
            _take(operation, walked.stock)
    return walked


def _missing(operation: SheetOperation, stock: Amounts, minor: frozenset[str]) -> dict[str, Decimal]:
    lacks = {item: need - stock.get(item, _NOTHING) for item, need in operation.needs.items() if item not in minor}
    return {item: amount for item, amount in lacks.items() if amount > 0}


def _note_minor(operation: SheetOperation, walked: _SheetState, minor: frozenset[str]) -> None:
    for item, need in operation.needs.items():
        lack = need - walked.stock.get(item, _NOTHING)
        if item in minor and lack > 0:
            walked.minor_missing[item] = walked.minor_missing.get(item, _NOTHING) + lack


def _take(operation: SheetOperation, stock: dict[str, Decimal]) -> None:
    """Subtracts the operation's needs from `stock`, down to zero."""
    for item, need in operation.needs.items():
        stock[item] = max(stock.get(item, _NOTHING) - need, _NOTHING)


def _covered(walked: _SheetState, sheet: ReadinessInput) -> tuple[set[str], list[Arrival]]:
    """The operations that are clear or will be after arrivals in time, and these arrivals."""
    stock, covered, arrivals = dict(walked.stock), set[str](), list[Arrival]()
    coming = {item: (Delivery(due),) for item, due in sheet.due.items()} | dict(sheet.deliveries)
    for operation in walked.order:
        if operation.code in walked.clear:
            covered.add(operation.code)
            continue
        missing = _missing(operation, stock, sheet.minor)
        in_time = list(_in_time(operation.code, missing, coming, sheet))
        if len(in_time) == len(missing) and covered.issuperset(operation.after):
            covered.add(operation.code)
            arrivals += in_time
            _take(operation, stock)
            coming |= {item: _remaining(coming[item], amount) for item, amount in missing.items()}
    return covered, arrivals


Coming = Mapping[str, tuple[Delivery, ...]]


def _in_time(code: str, missing: Amounts, coming: Coming, sheet: ReadinessInput) -> Iterator[Arrival]:
    """An arrival for each missing item of which enough arrives before the operation starts."""
    start = sheet.starts.get(code)
    for item in sorted(missing):
        due = _complete_at(coming.get(item, ()), missing[item])
        if due is None or start is None:
            continue
        # In UTC: instants of one zone are compared by their local times, which is wrong across a clock change.
        slack = start.astimezone(UTC) - due.astimezone(UTC)
        if slack >= timedelta(minutes=sheet.buffer):
            yield Arrival(code, item, due, start, slack // timedelta(minutes=1))


def _complete_at(coming: Iterable[Delivery], amount: Decimal) -> datetime | None:
    """The moment at which `amount` has arrived; None if it never does."""
    for delivery in coming:
        if delivery.amount is None or delivery.amount >= amount:
            return delivery.at
        amount -= delivery.amount
    return None


def _remaining(coming: Iterable[Delivery], amount: Decimal) -> tuple[Delivery, ...]:
    """The deliveries that remain after `amount` is taken from them, soonest first."""
    remaining: list[Delivery] = []
    for delivery in coming:
        if delivery.amount is None:
            remaining.append(delivery)
            continue
        used = min(delivery.amount, amount)
        amount -= used
        if delivery.amount > used:
            remaining.append(Delivery(delivery.at, delivery.amount - used))
    return tuple(remaining)


def _window(order: tuple[SheetOperation, ...], begin: int) -> tuple[SheetOperation, ...]:
    """The operations from the point of no return to the first one that makes the vehicle mobile, included."""
    for end, operation in enumerate(order[begin:], start=begin + 1):
        if operation.mobile_again:
            return order[begin:end]
    return order[begin:]


def _in_windows(order: tuple[SheetOperation, ...]) -> set[str]:
    starts = [at for at, operation in enumerate(order) if operation.no_return]
    return {operation.code for begin in starts for operation in _window(order, begin)}


def _hold_before(order: tuple[SheetOperation, ...], covered: set[str]) -> str | None:
    for at, operation in enumerate(order):
        if operation.no_return and any(member.code not in covered for member in _window(order, at)):
            return operation.code
    return None


def _held_by(order: tuple[SheetOperation, ...], hold_before: str | None, covered: set[str]) -> tuple[str, ...]:
    if hold_before is None:
        return ()
    begin = [operation.code for operation in order].index(hold_before)
    return tuple(operation.code for operation in _window(order, begin) if operation.code not in covered)


def _verdict(walked: _SheetState, window: set[str], hold_before: str | None) -> Verdict:
    codes = [operation.code for operation in walked.order]
    if len(walked.clear) == len(codes):
        return "complete"
    if not walked.clear:
        return "hold"
    if hold_before is not None:
        before = codes[: codes.index(hold_before)]
        return "start_to_hold" if any(code in walked.clear for code in before) else "hold"
    return "start" if window <= walked.clear.keys() else "start_on_arrivals"


def _short(sheet: ReadinessInput) -> dict[str, Decimal]:
    """The missing quantity of each item over the whole sheet."""
    needs: dict[str, Decimal] = {}
    for operation in sheet.operations:
        for item, need in operation.needs.items():
            needs[item] = needs.get(item, _NOTHING) + need
    lacks = {item: need - max(sheet.on_hand.get(item, _NOTHING), _NOTHING) for item, need in needs.items()}
    return {item: lack for item, lack in lacks.items() if lack > 0}
