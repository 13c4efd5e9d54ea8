"""Sends a draft: writes all its lines, freezes its text and prints its paper. It can no longer change."""

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import datetime, time, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from quotes.calc.priced import PricedQuote
from quotes.documents import quote_pdf, snapshots
from quotes.documents.costs import frozen_costs
from quotes.documents.derived_lines import derived_lines
from quotes.models import DraftStep, Line, Link, Quote, Revision
from quotes.queries.pricing import QuoteFigures, figures
from quotes.queries.sendable import NotSendableError, what_stops
from quotes.services.drafts import highest_of_several, lock_draft
from quotes.services.events import announce_revision
from quotes.services.links import make_link
from shop.access import Actor
from shop.calc.quantity import money
from shop.calc.snapshot import digest
from shop.errors import RequestError
from shop.services import feed, history
from shop.services.files import record_file
from shop.services.webhooks import Event
from shop.words.languages import speaking

LinePrice = tuple[Decimal, Decimal | None, Decimal | None]
"""(unit price, amount, cost of the whole line); a line that may happen has only the first"""
OWN_PRICE = "own price"  # of a loose part, from before a reason was asked for: the next revision keeps it


@dataclass(frozen=True, slots=True)
class Prepared:
    """Everything needed to send, built before the transaction because the PDF takes about a second."""

    version: int
    figures: QuoteFigures
    snapshot: str
    pdf: bytes
    sent_at: datetime
    valid_until: datetime
    below_floor: bool


def prepare(revision: Revision, *, below_floor: bool = False) -> Prepared:
    """Prices, freezes and prints the draft; writes nothing but the paper's file.

    Refuses a margin below the floor of the rules unless it was confirmed (`below_floor`).
    """
    if revision.state != Revision.State.DRAFT:
        raise RequestError(409, "not-a-draft")
    now = timezone.now().replace(microsecond=0)
    with speaking(*revision.quote.languages):
        priced, text, valid_until = freeze(revision, now)
    below = priced.below_floor
    if below and not below_floor:
        raise RequestError(409, "below-the-floor")
    with speaking(*revision.quote.languages):
        paper = quote_pdf.quote_paper(text)
    return Prepared(revision.version, priced, text, paper, now, valid_until, below)


def freeze(revision: Revision, now: datetime) -> tuple[QuoteFigures, str, datetime]:
    """(the draft's figures, the text that sending it `now` would freeze, the end of its validity).

    Writes nothing. Raises NotSendableError for a draft that cannot be sent yet.
    """
    priced = figures(revision, now)
    if stops := what_stops(revision, priced):
        raise NotSendableError(stops)
    valid_until = last_moment(now, revision.shop.zone, priced.validity.days)
    return priced, snapshots.snapshot_text(revision, priced, sent_at=now, valid_until=valid_until), valid_until


def last_moment(now: datetime, zone: str, days: int) -> datetime:
    """The last moment of the day that is `days` ahead in the shop's zone."""
    day = now.astimezone(ZoneInfo(zone)).date() + timedelta(days=days)
    return datetime.combine(day, time(23, 59, 59), ZoneInfo(zone))


@transaction.atomic
def send(
    *, actor: Actor, quote: Quote, seen: int, recipient: str, ready: Prepared, gross: str | None = None
) -> tuple[Revision, Link, str]:
    """Freezes the draft that was seen and adds the recipient's link; (revision, link, its path with the secret)."""
    revision = lock_draft(quote=quote)
    total = money(ready.figures.priced.totals.gross, quote.shop.exponent)
    if not revision.version == seen == ready.version or gross not in (None, total):
        raise RequestError(409, "draft-moved")
    others = Revision.objects.filter(shop=quote.shop, quote=quote)
    if others.filter(state=Revision.State.ACCEPTED).exists():  # the customer accepted first
        raise RequestError(409, "cannot-revise")
    others.filter(state=Revision.State.SENT).update(state=Revision.State.REPLACED)
    _write_lines(revision, ready.figures)
    totals = ready.figures.priced.totals
    revision.state = Revision.State.SENT
    revision.sent_at, revision.valid_until = ready.sent_at, ready.valid_until
    revision.net, revision.tax, revision.gross = totals.net, totals.tax_total, totals.gross
    revision.gross_high = highest_of_several(ready.figures)
    revision.snapshot, revision.digest = ready.snapshot, digest(ready.snapshot)
    revision.bought = frozen_costs(ready.figures, quote.shop)
    revision.pdf_sha256 = quote_pdf.keep(ready.pdf)
    path = quote_pdf.path_of(revision.pdf_sha256)
    revision.paper = record_file(
        shop=quote.shop, body=ready.pdf, media_type="application/pdf", path=path, now=ready.sent_at
    )
    revision.clean_fields()
    revision.save()
    DraftStep.objects.filter(shop=quote.shop, revision=revision).delete()
    link, address = make_link(actor=actor, quote=quote, recipient=recipient, valid_until=ready.valid_until)
    confirmed = {"below_floor": ["", "confirmed"]} if ready.below_floor else {}
    history.record(actor=actor, verb="sent", row=revision, changes={"recipient": ["", link.recipient], **confirmed})
    announce_revision(actor=actor, event=Event.QUOTE_SENT, quote=quote, revision=revision)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return revision, link, address


@transaction.atomic
def withdraw(*, actor: Actor, quote: Quote, revision_number: int, digest: str) -> Revision:
    """Withdraws a sent revision. The customer's page then says so."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    revision = Revision.objects.filter(shop=quote.shop, quote=quote, number=revision_number).first()
    if revision is None or revision.state != Revision.State.SENT or revision.digest != digest:
        raise RequestError(409, "not-sent")
    revision.state = Revision.State.WITHDRAWN
    revision.save(update_fields=["state"])
    history.record(actor=actor, verb="withdrawn", row=revision)
    announce_revision(actor=actor, event=Event.QUOTE_WITHDRAWN, quote=quote, revision=revision)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return revision


def _write_lines(revision: Revision, figures: QuoteFigures) -> None:
    """Writes the price of each chosen line, and the derived lines after them."""
    chosen = {str(line.pk): line for line in Line.objects.filter(shop=revision.shop, revision=revision)}
    for id, (unit_price, amount, cost) in _chosen_prices(figures).items():
        line = chosen[id]
        if line.kind == Line.Kind.PART and line.unit_price is not None and not (line.override_reason or line.supplied):
            line.override_reason = OWN_PRICE
        line.unit_price, line.amount, line.cost = unit_price, amount, cost
    Line.objects.bulk_update(chosen.values(), ["unit_price", "amount", "cost", "override_reason"])
    last = max((line.position for line in chosen.values()), default=0)
    with speaking(*revision.quote.languages):
        derived = list(derived_lines(figures))
    Line.objects.bulk_create(
        Line(shop=revision.shop, revision=revision, position=last + at, **asdict(line))
        for at, line in enumerate(derived, start=1)
    )


def _chosen_prices(figures: QuoteFigures) -> dict[str, LinePrice]:
    """Maps each chosen line to its prices: where it is part of an option, those of a price with this option."""
    prices: dict[str, LinePrice] = {}
    for possibility in figures.possible:
        for line, price in _line_prices(possibility.priced):
            prices.setdefault(line, price)
    return prices


def _line_prices(priced: PricedQuote) -> Iterator[tuple[str, LinePrice]]:
    for kit in priced.kits:
        yield kit.line, (kit.price, kit.price, kit.cost)
    for extra in priced.extras:
        yield extra.line, (extra.unit_price, extra.price, extra.cost)
    for contingency in priced.contingencies:
        yield contingency.line, (contingency.unit_price, None, None)
    for work in priced.outside:
        yield work.line, (work.price, work.price, work.cost)
