"""Records the customer's answer to exactly what was shown, once. An acceptance opens the job and its pull list."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.db import transaction

from quotes.calc.answer import UNKNOWN, AcceptanceError, AnswerForm, contradicts, moved_later, place_of
from quotes.calc.consents import first_day, missing_consents
from quotes.documents.promise_record import promise_record
from quotes.models import Decision, Link, Quote, Revision
from quotes.models.quotes import EXPIRED
from quotes.queries import frozen
from quotes.queries.pricing import shop_day
from quotes.services.changed_work import change_sold_work
from quotes.services.events import announce_revision
from quotes.services.links import works
from quotes.services.mails import send_receipt
from quotes.services.sold_work import open_sold_work
from shop.access import Actor
from shop.models import Agreement, Vehicle
from shop.services import feed, history
from shop.services.customers import record_attributes
from shop.services.webhooks import Event
from shop.typed import ControlCharacterError, person_name, visible
from shop.words.languages import language

MOST_REASON = 300


@dataclass(frozen=True, slots=True)
class Spoken:
    """An answer that the customer gave by phone or at the counter, and the person who records it.

    `phone` is the number called, `said_at` the moment at which the customer answered.
    """

    actor: Actor
    quote: Quote
    way: str
    phone: str
    said_at: datetime


Source = Link | Spoken
"""The way in which an answer reaches the workshop."""


@transaction.atomic
def accept_revision(*, source: Source, answer: AnswerForm, now: datetime) -> Decision:
    """Records the acceptance of the live revision, one for each quote. A repeat returns the recorded acceptance."""
    quote, revision = _open_for_answer(source, answer, now)
    earlier = _given(revision)
    if earlier is not None:
        return _same(earlier, source, Decision.Answer.ACCEPTED)
    document = frozen.read(revision)
    place = _price_stated(document, answer)
    unasked = isinstance(source, Spoken) and source.way == Decision.Way.CEILING
    if unasked and not quote.additional:
        raise AcceptanceError("ask")
    missing = () if unasked else missing_consents(document["rules"], answer.consents)
    if missing or not person_name(answer.name) or place is None:
        raise AcceptanceError("incomplete", name=not person_name(answer.name), consents=missing, price=place is None)
    if document.get("possible"):
        document = frozen.opened(revision.snapshot, place)
    if frozen.gross_of(document) != document["shown"]["totals"]["gross"]:
        raise ValueError(f"the frozen text of {quote}, version {revision.number}, does not add up")
    answered_on = shop_day(quote.shop, _answered_at(source, now))
    not_before = None if unasked else first_day(document["rules"], answer.consents, answered_on)
    promise = promise_record(document, quote.shop, now, not_before)
    if moved_later(answer.ready_later if not_before else answer.ready, promise and promise["told"]):
        raise AcceptanceError("moved")
    actor = _actor(source, quote)
    _record_stated(actor, document)
    revision.state = Revision.State.ACCEPTED
    if document.get("possible"):
        revision.combination, revision.agreed = place, Decimal(document["shown"]["totals"]["gross"])
    revision.save(update_fields=["state", "combination", "agreed"])
    if quote.additional:
        agreement = change_sold_work(actor, quote, revision, document, now, not_before=not_before, unasked=unasked)
    else:
        agreement = open_sold_work(actor, quote, revision, document, now, promise and promise["told"], not_before)
    quote.job = agreement.job
    quote.save(update_fields=["job", "customer", "vehicle"])
    return _record(
        actor, source, revision, answer, Decision.Answer.ACCEPTED, document, now, promise, not_before, agreement
    )


def _price_stated(document: Mapping[str, Any], answer: AnswerForm) -> int | None:
    """The index of the price that the customer chose; None without a choice, 0 if there is one price.

    Refuses `unknown` and `unfit`, for which the customer has to call.
    """
    if not document.get("possible"):
        return 0
    if answer.price == UNKNOWN:
        raise AcceptanceError("unknown")
    place = place_of(document, answer.price)
    if place is not None and not frozen.can_be_accepted(document["possible"][place]):
        raise AcceptanceError("unfit")
    return place


def _record_stated(actor: Actor, document: Mapping[str, Any]) -> None:
    """Writes the customer's statements to the vehicle. Refused if a different value has been recorded since."""
    stated = _stated(document)
    if not stated:
        return
    vehicle = Vehicle.objects.select_for_update().get(shop=actor.shop, pk=document["vehicle"]["id"])
    if contradicts(stated, vehicle.attributes):
        raise AcceptanceError("contradicts")
    record_attributes(actor=actor, vehicle=vehicle, stated=dict(stated))


def _stated(document: Mapping[str, Any]) -> list[list[str]]:
    return document["possible"][document["combination"]]["stated"] if document.get("possible") else []


@transaction.atomic
def decline_revision(*, source: Source, answer: AnswerForm, now: datetime) -> Decision:
    """Records that the customer declined, which needs no consents and opens no job."""
    quote, revision = _open_for_answer(source, answer, now)
    earlier = _given(revision)
    if earlier is not None:
        return _same(earlier, source, Decision.Answer.DECLINED)
    if not person_name(answer.name):
        raise AcceptanceError("incomplete", name=True)
    revision.state = Revision.State.DECLINED
    revision.save(update_fields=["state"])
    actor = _actor(source, quote)
    return _record(actor, source, revision, answer, Decision.Answer.DECLINED, frozen.read(revision), now)


def _actor(source: Source, quote: Quote) -> Actor:
    return source.actor if isinstance(source, Spoken) else Actor(shop=quote.shop, member=None, channel="link")


def _answered_at(source: Source, now: datetime) -> datetime:
    return source.said_at if isinstance(source, Spoken) else now


def _open_for_answer(source: Source, answer: AnswerForm, now: datetime) -> tuple[Quote, Revision]:
    """The quote and the revision that was seen, under the quote's lock. Refused if it can no longer be answered."""
    id = source.quote.pk if isinstance(source, Spoken) else source.quote_id
    quote = Quote.objects.select_for_update(of=("self",)).select_related("shop").get(pk=id)
    if isinstance(source, Link) and not works(source, now):
        raise AcceptanceError("link")
    revision = Revision.objects.filter(shop=quote.shop, quote=quote, number=answer.revision).first()
    if revision is None or revision.digest != answer.digest or not answer.digest:
        raise AcceptanceError("replaced")
    if revision.state in (Revision.State.REPLACED, Revision.State.WITHDRAWN):
        raise AcceptanceError(revision.state)
    if revision.state_at(now) == EXPIRED:
        raise AcceptanceError("expired")
    if isinstance(source, Spoken) and not (revision.sent_at and revision.sent_at <= source.said_at <= now):
        raise AcceptanceError("moment")
    return quote, revision


def _given(revision: Revision) -> Decision | None:
    return Decision.objects.filter(shop=revision.shop_id, revision=revision).first()


def _same(earlier: Decision, source: Source, expected: str) -> Decision:
    """The earlier decision for a repeat. Refuses a different answer: the customer has to call the workshop.

    An answer by a link and a spoken one never repeat each other: the second is always refused.
    """
    if earlier.answer != expected or isinstance(source, Spoken) or earlier.way != Decision.Way.LINK:
        raise AcceptanceError("answered")
    return earlier


def _record(
    actor: Actor,
    source: Source,
    revision: Revision,
    answer: AnswerForm,
    decided: str,
    document: Mapping[str, Any],
    now: datetime,
    promise: Mapping[str, Any] | None = None,
    not_before: date | None = None,
    agreement: Agreement | None = None,
) -> Decision:
    decision = Decision(
        shop=revision.shop,
        quote=revision.quote,
        revision=revision,
        link=source if isinstance(source, Link) else None,
        way=source.way if isinstance(source, Spoken) else Decision.Way.LINK,
        recorded_by=source.actor.member if isinstance(source, Spoken) else None,
        agreement=agreement,
        answer=decided,
        answered_at=_answered_at(source, now),
        digest=revision.digest,
        record={
            "name": person_name(answer.name)[:120],
            "address": answer.address[:60],
            "agent": answer.agent[:300],
            "consents": _consents(decided, answer, document),
            "words": list(answer.words),
            "language": language(),
            "not_before": not_before.isoformat() if not_before else None,
            "options": _options(document) if decided == Decision.Answer.ACCEPTED else [],
            "stated": _stated(document) if decided == Decision.Answer.ACCEPTED else [],
            "price": _price_words(decided, document),
            "gross": document["shown"]["totals"]["gross"],
            "promise": promise,
            "reason": reason_of(answer) if decided == Decision.Answer.DECLINED else "",
            **({"phone": source.phone, "recorded_at": now.isoformat()} if isinstance(source, Spoken) else {}),
        },
    )
    decision.clean_fields()
    decision.save(force_insert=True)
    if decided == Decision.Answer.ACCEPTED:
        send_receipt(actor=actor, decision=decision, now=now)
    history.record(actor=actor, verb=decided, row=revision)
    event = Event.QUOTE_ACCEPTED if decided == Decision.Answer.ACCEPTED else Event.QUOTE_DECLINED
    announce_revision(actor=actor, event=event, quote=revision.quote, revision=revision)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return decision


def reason_of(answer: AnswerForm) -> str:
    """The reason as it is stored; empty if it holds a control character."""
    try:
        return visible(answer.reason).strip()[:MOST_REASON]
    except ControlCharacterError:
        return ""


def _options(document: Mapping[str, Any]) -> list[dict[str, str]]:
    """The options that were accepted, with the choice that each answers."""
    taken = frozen.selection_of(document)
    return [
        {"id": option["id"], "choice": choice["title"], "option": option["title"]}
        for choice in document["choices"]
        for option in choice["options"]
        if option["id"] in taken
    ]


def _price_words(decided: str, document: Mapping[str, Any]) -> str:
    """The words of the accepted price; empty for a quote with one price."""
    accepted = decided == Decision.Answer.ACCEPTED and document.get("possible")
    return document["possible"][document["combination"]]["words"] if accepted else ""


def _consents(decided: str, answer: AnswerForm, document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The consents ticked with an acceptance; none for a refusal."""
    if decided != Decision.Answer.ACCEPTED:
        return []
    return [consent for consent in document["rules"]["consents"] if consent["code"] in answer.consents]
