"""Quotes as answers: the figures, with people, dates and state."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import QuerySet
from msgspec.structs import asdict, replace

from kitting.models import PullList
from quotes import access
from quotes.answers.figures import NoticeOut
from quotes.answers.links import LinkOut, NewLinkOut
from quotes.answers.prices import UndecidedOut
from quotes.answers.quotes import (
    AnswerOut,
    ConditionOut,
    NewerRulesOut,
    OutstandingRevisionOut,
    QuoteCustomerOut,
    QuoteJobOut,
    QuoteOut,
    QuoteRulesOut,
    QuoteVehicleOut,
    TaxClassOut,
    ValidityOut,
)
from quotes.answers.rows import QuoteRowOut, QuoteState
from quotes.calc.consents import terms_of
from quotes.calc.forms import FrozenContent
from quotes.calc.validity import Validity
from quotes.models import Decision, Line, Link, Quote, Revision
from quotes.models.answers import AnswerWay, DecisionAnswer
from quotes.models.quotes import EXPIRED
from quotes.presenters.changes import change_answer
from quotes.presenters.choices import draft_choices, sent_choices
from quotes.presenters.deposit import received_answer
from quotes.presenters.figures import figures_answer, kept_figures
from quotes.presenters.line_photographs import photograph_answer
from quotes.presenters.newer_rules import newer_rules
from quotes.presenters.possible_prices import sent_undecided
from quotes.presenters.promise_date import quote_promise
from quotes.presenters.questions import question_answer
from quotes.presenters.stops import stop_words
from quotes.presenters.to_settle import to_settle
from quotes.presenters.undecided import range_answer, undecided_answer
from quotes.presenters.undo import undo_answers
from quotes.queries import frozen
from quotes.queries.change_dates import ChangePlan, change_plan
from quotes.queries.line_photographs import line_photographs
from quotes.queries.link_life import works_until
from quotes.queries.pricing import QuoteFigures, figures, shop_day
from quotes.queries.promise import draft_plan
from quotes.queries.sendable import what_stops
from shop.answers.base import utc, utc_or_none
from shop.calc.quantity import money, plain
from shop.calc.rules import Rules
from shop.calc.snapshot import mark
from shop.compiled import compiled
from shop.models import Customer, Vehicle
from shop.models.jobs import JobState
from shop.presenters.dates import day_words
from shop.presenters.vehicles import vin_answer
from shop.queries.owners import owner_change_since
from shop.words import say
from shop.words.figures import listed, number


def quote_answer(revision: Revision, now: datetime, priced: QuoteFigures | None = None) -> QuoteOut:
    """The whole quote. A draft is priced now; a sent revision is read from its frozen text."""
    quote, shop = revision.quote, revision.shop
    draft = revision.state == Revision.State.DRAFT
    priced = (priced or figures(revision, now)) if draft else None
    document = {} if priced else frozen.read(revision)
    figures_shown = figures_answer(priced) if priced else kept_figures(document)
    decision = _decision(revision)
    promise, no_promise = quote_promise(revision, priced, document, decision, now)
    figures_shown = replace(figures_shown, notices=[*figures_shown.notices, *_notices(revision, priced, now)])
    stops = what_stops(revision, priced) if priced else ()
    undo, redo = undo_answers(revision, figures_shown) if draft else (None, None)
    return QuoteOut(
        **asdict(figures_shown),
        out=_out(revision, now),
        id=quote.pk,
        number=str(quote) or None,
        note=quote.note,
        customer_note=revision.customer_note,
        state=QuoteState(revision.state_at(now)),
        revision=revision.number,
        version=revision.version,
        editable=draft,
        digest=revision.digest or None,
        mark=mark(revision.digest) if revision.digest else None,
        changed_at=utc(revision.changed_at),
        changed_by=revision.changed_by.user.name,
        sent_at=utc_or_none(revision.sent_at),
        valid_until=utc_or_none(revision.valid_until),
        validity=_validity(priced.validity) if priced else None,
        currency=shop.currency,
        exponent=shop.exponent,
        customer=_customer(quote.customer),
        vehicle=_vehicle(quote.vehicle, shop.market),
        condition=revision.condition,
        here=revision.here,
        here_from=revision.here_from,
        promise=promise,
        no_promise=no_promise,
        rules=_rules(revision, now),
        undo=undo,
        redo=redo,
        stops=stop_words(stops, shop.exponent),
        to_settle=to_settle(stops, figures_shown, shop.exponent) if draft else [],
        undecided=undecided_answer(revision, priced, now, promise)
        if priced
        else _sent_undecided(revision, document, now),
        choices=draft_choices(revision, priced, now) if priced else sent_choices(document, shop, now),
        range=range_answer(priced) if priced else None,
        photographs=[photograph_answer(row) for row in line_photographs(revision)],
        links=[_link(link) for link in _links(revision)],
        questions=[question_answer(question) for question in access.questions(quote)],
        answer=_answer(decision),
        job=QuoteJobOut(quote.job.pk, str(quote.job), JobState(quote.job.state)) if quote.job else None,
        deposit_received=received_answer(document, quote),
        change=change_answer(
            revision, Decimal(figures_shown.totals.gross), _change_plan(revision, priced, document, now), now
        ),
        pull_list=_pull_list(quote),
    )


def _change_plan(
    revision: Revision, priced: QuoteFigures | None, document: FrozenContent, now: datetime
) -> ChangePlan | None:
    """The work of a change that can still be agreed to."""
    if not revision.quote.additional:
        return None
    if priced:
        return ChangePlan(draft_plan(revision, priced), priced.loaded.stages, terms_of(priced.loaded.input.rules))
    return change_plan(document) if revision.state_at(now) == Revision.State.SENT else None


def _validity(validity: Validity) -> ValidityOut:
    because = validity.because
    why = None if because.code == "valid_rules" else say(f"why.{because.code}", **dict(because.facts))
    return ValidityOut(validity.days, why)


def _sent_undecided(revision: Revision, document: FrozenContent, now: datetime) -> UndecidedOut | None:
    return None if revision.state == Revision.State.ACCEPTED else sent_undecided(document, revision.shop, now)


def _notices(revision: Revision, priced: QuoteFigures | None, now: datetime) -> Iterator[NoticeOut]:
    """Notices of a draft that are not about a figure."""
    day = revision.here_from
    if revision.state == Revision.State.DRAFT and day and day < shop_day(revision.shop, now):
        yield NoticeOut("here_from_past", "", say("promise.here_past", day=day_words(day)))
    if revision.state == Revision.State.DRAFT and not revision.quote.additional:
        yield from _other_owner(revision.quote)
    if priced:
        kits = (facts.revision.kit for facts in priced.loaded.kits.values())
        archived = dict.fromkeys(kit.title for kit in kits if kit.archived)
        yield from (NoticeOut("kit_archived", "", say("quote.kit_archived", kit=title)) for title in archived)


def _other_owner(quote: Quote) -> Iterator[NoticeOut]:
    """The notice that the vehicle went to another owner after the quote was begun."""
    customer, vehicle = quote.customer, quote.vehicle
    if customer is None or vehicle is None or vehicle.customer_id in (None, customer.pk):
        return
    change = owner_change_since(vehicle, quote.created_at)
    if change is not None:
        facts = {"vehicle": vehicle.title, "owner": change.after, "customer": customer.name}
        yield NoticeOut("other_owner", "", say("owner.of_draft", day=day_words(change.since), **facts))


def _decision(revision: Revision) -> Decision | None:
    """The last answer to the quote. Nobody has answered one whose first version is open."""
    quote = revision.quote
    if revision.number == 1 and revision.state in (Revision.State.DRAFT, Revision.State.SENT):
        return None
    rows = Decision.objects.filter(shop=quote.shop_id, quote=quote).select_related("recorded_by__user")
    return rows.order_by("-answered_at").first()


def _pull_list(quote: Quote) -> UUID | None:
    pull_list = PullList.objects.filter(shop=quote.shop_id, job=quote.job_id).first() if quote.job_id else None
    return pull_list.pk if pull_list else None


def _out(revision: Revision, now: datetime) -> OutstandingRevisionOut | None:
    """The revision that the customer can still accept, so that it can be withdrawn while the next is a draft.

    At most one revision of a quote is sent or accepted, so that only behind a draft another one is looked for.
    """
    live = access.live(revision.quote) if revision.state == Revision.State.DRAFT else revision
    if live is not None and live.state != Revision.State.SENT:
        return None
    if live is None or live.state_at(now) == EXPIRED:
        return None
    return OutstandingRevisionOut(live.number, live.digest)


def _customer(customer: Customer | None) -> QuoteCustomerOut | None:
    if customer is None:
        return None
    return QuoteCustomerOut(customer.pk, customer.name, customer.phone, customer.email)


def _vehicle(vehicle: Vehicle | None, market: str) -> QuoteVehicleOut | None:
    if vehicle is None:
        return None
    return QuoteVehicleOut(
        id=vehicle.pk,
        title=vehicle.title,
        vin_tail=vehicle.vin[-6:],
        vin_check=vin_answer(vehicle.vin, market) if vehicle.vin else None,
        plate=vehicle.plate,
        attributes=vehicle.attributes,
        capacities=vehicle.capacities,
        version=vehicle.version,
    )


def _rules(revision: Revision, now: datetime) -> QuoteRulesOut:
    rules = Rules.from_json(revision.rules.rules)
    return QuoteRulesOut(
        number=revision.rules.number,
        valid_from=revision.rules.valid_from,
        prices_include_tax=rules.prices_include_tax,
        conditions=[ConditionOut(code, plain(factor)) for code, factor in rules.condition_factors.items()],
        skills=list(rules.labour_rates),
        tax_classes=[TaxClassOut(tax_class, _tax_class(tax_class, rules)) for tax_class in rules.line_classes()],
        newer=_newer(revision, now),
    )


def _newer(revision: Revision, now: datetime) -> NewerRulesOut | None:
    """The rules in force that a draft was not begun with; `declined` where this draft keeps its own."""
    newer = newer_rules(revision, now)
    if newer is None:
        return None
    return NewerRulesOut(newer.number, newer.valid_from, declined=newer.number == revision.rules_declined)


def _tax_class(code: str, rules: Rules) -> str:
    taxes = [rule for rule in rules.taxes if code in rule.tax.classes]
    if not taxes:
        return say("quote.class_untaxed", code=code)
    rates = listed([say("quote.class_rate", title=rule.title, rate=number(rule.tax.rate * 100)) for rule in taxes])
    return say("quote.class_taxed", code=code, rates=rates)


def _links(revision: Revision) -> list[Link]:
    rows = _links_of(revision.shop_id, revision.quote_id)
    for link in rows:
        link.quote, link.shop = revision.quote, revision.shop
    return rows


@compiled
def _links_of(shop: UUID, quote: UUID) -> QuerySet[Link]:
    return Link.objects.filter(shop=shop, quote=quote).order_by("made_at")


def _link(link: Link) -> LinkOut:
    return LinkOut(
        id=link.pk,
        recipient=link.recipient,
        made_at=utc(link.made_at),
        expires_at=utc_or_none(works_until(link)),
        revoked_at=utc_or_none(link.revoked_at),
    )


def _answer(decision: Decision | None) -> AnswerOut | None:
    if decision is None:
        return None
    record = decision.record
    return AnswerOut(
        answer=DecisionAnswer(decision.answer),
        name=record["name"],
        at=utc(decision.answered_at),
        consents=[consent["text"] for consent in record["consents"]],
        waits=_waits(record.get("not_before")),
        price=record.get("price") or None,
        options=[
            say("customer.choice.chosen", choice=taken["choice"], option=taken["option"])
            for taken in record.get("options", ())
        ],
        way=AnswerWay(decision.way),
        phone=record.get("phone", ""),
        recorded_by=decision.recorded_by.user.name if decision.recorded_by else None,
        reason=record.get("reason", ""),
        words=record.get("words", []),
    )


def _waits(not_before: str | None) -> str | None:
    """The sentence on the wait after an acceptance without the consent to begin early."""
    if not not_before:
        return None
    last = date.fromisoformat(not_before) - timedelta(days=1)
    return say("quote.answer.waits", day=day_words(last))


def new_link(link: Link, url: str | None = None, message: str | None = None) -> NewLinkOut:
    return NewLinkOut(
        id=link.pk, recipient=link.recipient, expires_at=utc_or_none(works_until(link)), url=url, message=message
    )


def quote_row(revision: Any, now: datetime) -> QuoteRowOut:
    """A line of a list of quotes; the revision is as `access` lists it, with `at` and its lines."""
    quote = revision.quote
    return QuoteRowOut(
        id=quote.pk,
        number=str(quote) or None,
        note=quote.note,
        phone=quote.customer.phone if quote.customer else "",
        state=QuoteState(revision.state_at(now)),
        revision=revision.number,
        customer=quote.customer.name if quote.customer else None,
        vehicle=quote.vehicle.title if quote.vehicle else None,
        kits=[line.title for line in revision.lines.all() if line.kind == Line.Kind.KIT],
        gross=_gross(revision),
        gross_high=_gross_high(revision),
        changed_at=utc(revision.changed_at),
        sent_at=utc_or_none(revision.sent_at),
        answered_at=utc_or_none(revision.at),
        valid_until=utc_or_none(revision.valid_until),
        job_state=JobState(quote.job.state) if quote.job else None,
    )


def _gross(revision: Revision) -> str | None:
    """The total that was agreed; else the first that was sent."""
    total = revision.gross if revision.agreed is None else revision.agreed
    return None if total is None else money(total, revision.shop.exponent)


def _gross_high(revision: Revision) -> str | None:
    """The highest of several prices; None once one is accepted."""
    if revision.gross_high is None or revision.state == Revision.State.ACCEPTED:
        return None
    return money(revision.gross_high, revision.shop.exponent)
