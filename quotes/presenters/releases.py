"""Releases as answers and as text to print or paste."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from decimal import Decimal

from msgspec import structs

from kitting.answers.orders import ProposedOrderOut
from kitting.presenters.orders import orders_answer
from kitting.queries.here import still_needed
from quotes.answers.releases import OutsideOrderOut, ReleaseOut, ReleasesOut, ToReleaseOut
from quotes.calc.forms import FrozenContent
from quotes.calc.still_to_release import NumberedQuantity, still_to_release
from quotes.models import Release
from quotes.queries.releases import (
    ReleaseFacts,
    arrived_quantities,
    goods_of,
    release_facts,
    released_outside,
    released_quantities,
    too_early,
)
from shop.access import Actor
from shop.answers.base import from_kept, utc
from shop.calc.quantity import plain
from shop.models import Job
from shop.presenters.dates import day_words
from shop.queries.calendar import shop_day
from shop.words import say
from shop.words.figures import figure


def releases_answer(actor: Actor, job: Job, now: datetime) -> ReleasesOut:
    """The proposals that can be released now, and the earlier releases."""
    today = shop_day(actor.shop, now)
    facts = release_facts(job, today)
    arrived = arrived_quantities(facts.releases, goods_of(actor.shop, facts)) if facts.releases else []
    proposed = to_release(actor, job, facts, arrived, now)
    stops = list(_stops(job, proposed, facts))
    if too_early(job, today) and job.not_before:
        stops.append(say("release.stop.early", day=day_words(job.not_before)))
    return ReleasesOut(
        job=job.pk,
        number=str(job),
        proposed=proposed,
        stops=stops,
        notes=[*_notes(proposed, facts), *_to_cancel(actor, facts, arrived)],
        releases=[_release(release) for release in facts.releases],
    )


def to_release(
    actor: Actor, job: Job, facts: ReleaseFacts, arrived: Sequence[NumberedQuantity], now: datetime
) -> ToReleaseOut:
    """The orders that can still be released: the pull list's proposals and the agreed outside work not released yet.

    `arrived`: what has come since the first release of its number.
    """
    proposed = orders_answer(actor, facts.pull_list, now).suppliers if facts.pull_list else []
    suppliers = _rest(proposed, facts, arrived)
    outside = [] if job.state == Job.State.CALLED_OFF else list(_outside_rest(facts))
    return ToReleaseOut(suppliers, outside, release_text(actor.shop.name, str(job), suppliers, outside))


def release_text(
    house: str, job: str, suppliers: Sequence[ProposedOrderOut], outside: Sequence[OutsideOrderOut]
) -> str:
    """A release as lines of text, a block for each supplier and firm."""
    return "\n".join([say("release.text.head", house=house, job=job), *_blocks(suppliers, outside)])


def _blocks(suppliers: Sequence[ProposedOrderOut], outside: Sequence[OutsideOrderOut]) -> Iterator[str]:
    for order in suppliers:
        yield f"\n{order.supplier or say('release.text.nobody')}"
        for line in order.lines:
            facts = {"quantity": figure(line.quantity), "unit": line.unit, "number": line.number, "title": line.title}
            yield say("release.text.line", **facts)
    for work in outside:
        yield f"\n{work.firm}"
        yield work.title
        if work.they_need:
            yield say("release.text.need", words=work.they_need)


def _rest(
    suppliers: Sequence[ProposedOrderOut], facts: ReleaseFacts, arrived: Sequence[NumberedQuantity]
) -> list[ProposedOrderOut]:
    """The proposals less what earlier releases hold and is still to come."""
    lines = [(line.number, Decimal(line.quantity)) for order in suppliers for line in order.lines]
    rests = iter(still_to_release(lines, released_quantities(facts.releases), arrived))
    orders = [
        structs.replace(
            order,
            lines=[structs.replace(line, quantity=plain(rest)) for line in order.lines if (rest := next(rests)) > 0],
        )
        for order in suppliers
    ]
    return [order for order in orders if order.lines]


def _outside_rest(facts: ReleaseFacts) -> Iterator[OutsideOrderOut]:
    """The outside work of the accepted texts that no change took off and no release holds yet."""
    before, gone = released_outside(facts.releases), facts.taken_off
    for text in facts.orderable:
        for work in text["shown"]["outside"]:
            if f"outside:{work['line']}" in gone:
                continue
            if before[work["title"], work["firm"]] > 0:
                before[work["title"], work["firm"]] -= 1
            else:
                yield _outside(work)


def _outside(work: FrozenContent) -> OutsideOrderOut:
    return OutsideOrderOut(work["title"], work["firm"], work["they_need"])


def _stops(job: Job, proposed: ToReleaseOut, facts: ReleaseFacts) -> Iterator[str]:
    if job.state == Job.State.CALLED_OFF:
        yield say("release.stop.called_off")
    elif not proposed.suppliers and not proposed.outside:
        yield say("release.stop.released" if facts.releases else "release.stop.nothing")


def _notes(proposed: ToReleaseOut, facts: ReleaseFacts) -> Iterator[str]:
    if facts.deposit_awaited:
        yield say("release.note.deposit_part" if facts.deposit_begun else "release.note.deposit")
    if facts.deposit_awaited and facts.by_deposit and (proposed.suppliers or proposed.outside):
        yield say("release.note.by_deposit")
    if facts.releases and (proposed.suppliers or proposed.outside):
        yield say("release.note.again")


def _to_cancel(actor: Actor, facts: ReleaseFacts, arrived: Sequence[NumberedQuantity]) -> Iterator[str]:
    """The released goods that have not come and that the job needs no more, since a change removed them."""
    if not facts.releases or facts.pull_list is None:
        return
    needed = still_needed(actor.shop, facts.pull_list)
    yield from outstanding_words("release.note.cancel", facts.releases, [*arrived, *needed])


def outstanding_words(key: str, releases: Sequence[Release], settled: Sequence[NumberedQuantity]) -> Iterator[str]:
    """A sentence for each released line with a quantity that is not among the `settled`, the first release first."""
    orders = [order for release in reversed(releases) for order in release.content["suppliers"]]
    lines = [(order["supplier"], line) for order in orders for line in order["lines"]]
    rests = still_to_release([(line["number"], Decimal(line["quantity"])) for _, line in lines], settled)
    for (supplier, line), rest in zip(lines, rests, strict=True):
        if rest:
            facts = {"quantity": figure(plain(rest)), **{name: line[name] for name in ("unit", "number", "title")}}
            yield say(key, supplier=supplier or say("release.text.nobody"), **facts)


def _release(release: Release) -> ReleaseOut:
    content = release.content
    name = release.released_by.user.name
    return ReleaseOut(
        suppliers=[from_kept(order, ProposedOrderOut) for order in content["suppliers"]],
        outside=[from_kept(work, OutsideOrderOut) for work in content["outside"]],
        text=content["text"],
        id=release.pk,
        at=utc(release.released_at),
        by=say("release.by_deposit" if release.payment_id else "release.by", name=name),
    )
