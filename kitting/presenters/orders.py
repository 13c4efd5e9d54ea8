"""Order proposals for a list, by supplier. They are not stored and hold no cost."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID

from kitting.answers.orders import OrdersOut, ProposedLineOut, ProposedOrderOut
from kitting.calc.still_to_order import PullLineStock, single_lines, whole_kits
from kitting.models import Kit, Part, PullLine, PullList
from kitting.queries.offers import suppliers_of
from kitting.queries.readiness import Counts, counts_of, good_for, kits_of, line_on_hand, standing_lines
from shop.access import Actor
from shop.calc.quantity import plain
from shop.calc.withdrawal import is_waiting
from shop.models import Job, Shop
from shop.presenters.dates import day_words
from shop.queries.calendar import shop_day
from shop.queries.steps import standing_steps
from shop.words import say


def orders_answer(actor: Actor, pull_list: PullList, now: datetime) -> OrdersOut:
    """The proposals by supplier name, an unknown supplier last: kits by part number, short packs and parts.

    A job that was called off needs nothing.
    """
    if pull_list.job.state == Job.State.CALLED_OFF:
        return OrdersOut(not_before=None, suppliers=[])
    shop, lines = actor.shop, standing_lines(actor.shop, pull_list)
    today = shop_day(shop, now)
    steps = dict(standing_steps(shop, pull_list.job_id).values_list("pk", "title"))
    return OrdersOut(
        not_before=not_before_words(pull_list.job, today) or change_waits_words(lines, today),
        suppliers=to_order(shop, lines, kits_of(shop, lines), counts_of(shop, pull_list, lines), steps, now),
    )


def not_before_words(job: Job, today: date) -> str | None:
    """'Nothing before Fri 11 Dec 2026: withdrawal period.'; None from that day on."""
    if not job.not_before or not is_waiting(job.not_before, today):
        return None
    return say("readiness.not_before", day=day_words(job.not_before))


def change_waits_words(lines: Iterable[PullLine], today: date) -> str | None:
    """'Nothing that a change added before Fri 11 Dec 2026: withdrawal period.'; None where nothing waits."""
    days = [day for line in lines if (day := _waits_until(line)) and is_waiting(day, today)]
    return say("readiness.change_not_before", day=day_words(max(days))) if days else None


def _waits_until(line: PullLine) -> date | None:
    """The first day on which what the line's change added may be ordered."""
    return line.origin.not_before if line.origin else None


def to_order(
    shop: Shop,
    lines: Sequence[PullLine],
    kits: Mapping[str, Kit],
    counts: Counts,
    steps: Mapping[UUID, str],
    now: datetime,
) -> list[ProposedOrderOut]:
    """The proposed orders, in two queries, without what a change added that the customer may still take back.

    `steps` are the titles of the job's steps by id.
    """
    today = shop_day(shop, now)
    lines = [line for line in lines if not is_waiting(_waits_until(line), today)]
    stocks = [_wanted(line, counts) for line in lines]
    bought = [*_kits(stocks, kits, now), *_lines(stocks, lines, steps, now)]
    suppliers = suppliers_of(shop, [part for part, _, _ in bought])
    by_supplier: dict[str | None, list[ProposedLineOut]] = defaultdict(list)
    for part, quantity, purpose in bought:
        by_supplier[suppliers.get(part.pk)].append(_line(part, quantity, purpose))
    names = sorted(by_supplier, key=lambda name: (name is None, name or ""))
    return [ProposedOrderOut(supplier=name, lines=by_supplier[name]) for name in names]


def _wanted(line: PullLine, counts: Counts) -> PullLineStock:
    return PullLineStock(
        line=str(line.pk),
        quantity=line.quantity,
        unit=line.unit,
        have=line_on_hand(line, counts),
        settled=counts.settled(line.pk),
        kit=line.kit,
        copy=line.copy_number,
        taken=line.kind != PullLine.Kind.BESIDE,
        said_at=counts.day(line),
        spoiled=counts.spoiled(line),
        part=good_for(line),
        supplied=line.supplied,
    )


def _kits(
    stocks: Iterable[PullLineStock], kits: Mapping[str, Kit], now: datetime
) -> Iterator[tuple[Part, Decimal, str]]:
    for code, copies in whole_kits(stocks, now).items():
        if code in kits:
            yield kits[code].part, Decimal(copies), say("orders.kit", kit=code)


def _lines(
    stocks: Sequence[PullLineStock], lines: Iterable[PullLine], steps: Mapping[UUID, str], now: datetime
) -> Iterator[tuple[Part, Decimal, str]]:
    """Short parts with quantity and purpose. A part that is short in several places of a kit is one line."""
    rows = {str(line.pk): line for line in lines}
    quantities: dict[tuple[UUID, str], Decimal] = defaultdict(Decimal)
    parts: dict[UUID, Part] = {}
    for id, quantity in single_lines(stocks, now):
        part = rows[id].part
        if part is not None:
            parts[part.pk] = part
            quantities[part.pk, _purpose(rows[id], steps)] += quantity
    for (part_id, purpose), quantity in quantities.items():
        yield parts[part_id], quantity, purpose


def _purpose(line: PullLine, steps: Mapping[UUID, str]) -> str:
    """The kit; else the title of the step, or its code if the job has no such step."""
    if line.kit:
        return say("orders.kit", kit=line.kit)
    title = (steps.get(line.step_id) if line.step_id else None) or line.operation
    return say("orders.step", title=title) if title else ""


def _line(part: Part, quantity: Decimal, purpose: str) -> ProposedLineOut:
    return ProposedLineOut(
        number=part.number, title=part.title, quantity=plain(quantity), unit=part.unit, purpose=purpose
    )
