"""Quotes as the API shows them: the figures in words, and around them who, when and in what state."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

from kitting.models import PullList
from quotes import access
from quotes.answers.links import LinkOut, NewLinkOut
from quotes.answers.rows import QuoteRowOut, QuoteState
from quotes.models import Decision, Line, Link, Quote, Revision
from quotes.models.quotes import LAPSED
from quotes.presenters.figures import shown
from quotes.presenters.newer_rules import newer_rules
from quotes.presenters.possible_prices import sent_undecided_shape
from quotes.presenters.promise_date import quote_promise
from quotes.presenters.stops import stop_words
from quotes.presenters.undecided import range_shape, undecided_shape
from quotes.queries import frozen
from quotes.queries.pricing import QuoteFigures, figures, shop_day
from quotes.queries.sendable import what_stops
from shop.answers.base import utc, utc_or_none
from shop.calc.quantity import money, plain
from shop.calc.rules import UNTAXED, Rules
from shop.calc.snapshot import mark
from shop.models import Customer, Vehicle
from shop.presenters.dates import day_words
from shop.presenters.rows import iso, vin_answer
from shop.words import say


def quote_shape(revision: Revision, now: datetime, found: QuoteFigures | None = None) -> dict[str, Any]:
    """The whole quote. A draft is priced now; a sent revision is read from its frozen text."""
    quote, shop = revision.quote, revision.shop
    draft = revision.state == Revision.State.DRAFT
    found = (found or figures(revision, now)) if draft else None
    kept = {} if found else frozen.read(revision)
    figures_shown = shown(found) if found else kept["shown"]
    decision = _decision(quote)
    dates = quote_promise(revision, found, kept, decision, now)
    return {
        "id": str(quote.pk),
        "number": str(quote) or None,
        "note": quote.note,
        "state": revision.state_at(now),
        "issue": revision.number,
        "version": revision.version,
        "editable": draft,
        "digest": revision.digest or None,
        "mark": mark(revision.digest) if revision.digest else None,
        "changed_at": iso(revision.changed_at),
        "changed_by": revision.changed_by.user.name,
        "sent_at": iso(revision.sent_at),
        "valid_until": iso(revision.valid_until),
        "currency": shop.currency,
        "exponent": shop.exponent,
        "customer": _customer(quote.customer),
        "vehicle": _vehicle(quote.vehicle, shop.market),
        "condition": revision.condition,
        "here": revision.here,
        "here_from": revision.here_from.isoformat() if revision.here_from else None,
        **dates,
        "rules": _rules(revision) | {"newer": _newer(revision, now)},
        "stops": stop_words(what_stops(revision, found), shop.exponent) if found else [],
        "undecided": undecided_shape(revision, found, now, dates["promise"])
        if found
        else _sent_undecided(revision, kept, now),
        "range": range_shape(found) if found else None,
        **figures_shown,
        "notices": [*figures_shown["notices"], *_notices(revision, now)],
        **_around(quote, decision, now),
    }


def _sent_undecided(revision: Revision, kept: dict[str, Any], now: datetime) -> dict[str, Any] | None:
    return None if revision.state == Revision.State.ACCEPTED else sent_undecided_shape(kept, revision.shop, now)


def _notices(revision: Revision, now: datetime) -> Iterator[dict[str, Any]]:
    """Notices of a draft that are not about a figure."""
    day = revision.here_from
    if revision.state == Revision.State.DRAFT and day and day < shop_day(revision.shop, now):
        yield {"code": "here_from_past", "about": "", "words": say("promise.here_past", day=day_words(day))}


def _decision(quote: Quote) -> Decision | None:
    return Decision.objects.filter(shop=quote.shop_id, quote=quote).order_by("-at").first()


def _around(quote: Quote, decision: Decision | None, now: datetime) -> dict[str, Any]:
    links = Link.objects.filter(shop=quote.shop_id, quote=quote).order_by("made_at")
    lists = PullList.objects.filter(shop=quote.shop_id, job=quote.job_id).first() if quote.job_id else None
    return {
        "out": _out(quote, now),
        "links": [_link(link) for link in links],
        "answer": _answer(decision),
        "job": {"id": str(quote.job_id), "number": str(quote.job)} if quote.job else None,
        "pull_list": str(lists.pk) if lists else None,
    }


def _out(quote: Quote, now: datetime) -> dict[str, Any] | None:
    """The revision that the customer can still accept, so that it can be withdrawn while the next is a draft."""
    live = access.live(quote)
    if live is None or live.state_at(now) == LAPSED:
        return None
    return {"issue": live.number, "digest": live.digest}


def _customer(customer: Customer | None) -> dict[str, Any] | None:
    if customer is None:
        return None
    return {"id": str(customer.pk), "name": customer.name, "phone": customer.phone, "email": customer.email}


def _vehicle(vehicle: Vehicle | None, market: str) -> dict[str, Any] | None:
    if vehicle is None:
        return None
    return {
        "id": str(vehicle.pk),
        "title": vehicle.title,
        "vin_tail": vehicle.vin[-6:],
        "vin_check": vin_answer(vehicle.vin, market) if vehicle.vin else None,
        "plate": vehicle.plate,
        "attributes": vehicle.attributes,
        "capacities": vehicle.capacities,
        "version": vehicle.version,
    }


def _rules(revision: Revision) -> dict[str, Any]:
    rules = Rules.from_json(revision.rules.rules)
    return {
        "number": revision.rules.number,
        "valid_from": revision.rules.valid_from.isoformat(),
        "prices_include_tax": rules.prices_include_tax,
        "validity_days": rules.validity_days,
        "conditions": [{"code": code, "factor": plain(f)} for code, f in rules.condition_factors.items()],
        "tax_classes": [{"code": each, "words": _tax_class(each, rules)} for each in _tax_classes(rules)],
    }


def _newer(revision: Revision, now: datetime) -> dict[str, Any] | None:
    """The rules in force that a draft was not begun with; `declined` where this draft keeps its own."""
    newer = newer_rules(revision, now)
    if newer is None:
        return None
    declined = newer.number == revision.rules_declined
    return {"number": newer.number, "valid_from": newer.valid_from.isoformat(), "declined": declined}


def _tax_classes(rules: Rules) -> list[str]:
    """The classes of the rules, and one for what is sold without tax where every one of them is taxed."""
    taxed = {each for rule in rules.taxes for each in rule.tax.classes}
    known = rules.tax_classes()
    return [*known, *([UNTAXED] if taxed.issuperset(known) else [])]


def _tax_class(code: str, rules: Rules) -> str:
    taxes = [rule for rule in rules.taxes if code in rule.tax.classes]
    if not taxes:
        return say("quote.class_untaxed", code=code)
    rates = ", ".join(say("quote.class_rate", title=rule.title, rate=plain(rule.tax.rate * 100)) for rule in taxes)
    return say("quote.class_taxed", code=code, rates=rates)


def _link(link: Link) -> LinkOut:
    return LinkOut(
        id=link.pk,
        recipient=link.recipient,
        made_at=utc(link.made_at),
        expires_at=utc(link.expires_at),
        revoked_at=utc_or_none(link.revoked_at),
    )


def _answer(decision: Decision | None) -> dict[str, Any] | None:
    if decision is None:
        return None
    record = decision.record
    return {
        "answer": decision.answer,
        "name": record["name"],
        "at": iso(decision.at),
        "consents": [each["text"] for each in record["consents"]],
        "waits": _waits(record.get("not_before")),
        "price": record.get("price") or None,
    }


def _waits(not_before: str | None) -> str | None:
    """The hold of an acceptance without the consent to begin early, whose period ends on the day before."""
    if not not_before:
        return None
    last = date.fromisoformat(not_before) - timedelta(days=1)
    return say("quote.answer.waits", day=day_words(last))


def new_link(link: Link, url: str | None) -> NewLinkOut:
    return NewLinkOut(id=link.pk, recipient=link.recipient, expires_at=utc(link.expires_at), url=url)


def quote_row(revision: Revision, now: datetime) -> QuoteRowOut:
    """A line of a list of quotes; lines are prefetched."""
    quote = revision.quote
    return QuoteRowOut(
        id=quote.pk,
        number=str(quote) or None,
        note=quote.note,
        phone=quote.customer.phone if quote.customer else "",
        state=QuoteState(revision.state_at(now)),
        issue=revision.number,
        customer=quote.customer.name if quote.customer else None,
        vehicle=quote.vehicle.title if quote.vehicle else None,
        kits=[line.title for line in revision.lines.all() if line.kind == Line.Kind.KIT],
        gross=_gross(revision),
        gross_high=_gross_high(revision),
        changed_at=utc(revision.changed_at),
        sent_at=utc_or_none(revision.sent_at),
        valid_until=utc_or_none(revision.valid_until),
    )


def _gross(revision: Revision) -> str | None:
    """The total that was agreed; else the first that was sent."""
    total = revision.gross if revision.agreed is None else revision.agreed
    return None if total is None else money(total, revision.shop.exponent)


def _gross_high(revision: Revision) -> str | None:
    """The highest of several prices, until one is accepted."""
    if revision.gross_high is None or revision.state == Revision.State.ACCEPTED:
        return None
    return money(revision.gross_high, revision.shop.exponent)
