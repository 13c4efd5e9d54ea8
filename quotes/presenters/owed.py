"""Owed to us as an answer, by the reader's role."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from kitting.presenters.outside_log import outside_sentence, outside_state
from kitting.queries.owed import OutsideOwed, outside_owed
from quotes.answers.owed import OwedCoreOut, OwedMoneyOut, OwedOut, OwedOutsideOut
from quotes.models import Quote
from quotes.queries.cores_owed import CoreOwed, cores_owed
from quotes.queries.outside import firm_contacts
from quotes.queries.owed import MoneyOwed, money_owed, opening_quotes
from shop.access import Actor
from shop.calc.quantity import money
from shop.models import Job, Shop
from shop.presenters.dates import day_words
from shop.words import say
from shop.words.figures import listed


def owed_answer(actor: Actor, now: datetime, *, sees_money: bool, asks_firms: bool) -> OwedOut:
    """`sees_money`: with what customers have to pay, and with the way to the quotes. `asks_firms`: with whom to ask."""
    shop = actor.shop
    outside = outside_owed(shop, now)
    sums = money_owed(shop, now) if sees_money else []
    cores = cores_owed(shop, now)
    jobs = {*(owed.job.pk for owed in outside), *(owed.job.pk for owed in sums), *(owed.job.pk for owed in cores)}
    quotes = opening_quotes(shop, jobs) if sees_money and jobs else {}
    contacts = firm_contacts(shop, (owed.work.code for owed in outside)) if asks_firms and outside else {}
    return OwedOut(
        outside=[
            _outside(owed, quotes, contacts.get(owed.work.code, "") if asks_firms else None, shop, now)
            for owed in outside
        ],
        cores=[_core(owed, quotes, shop, now, sees_money=sees_money) for owed in cores],
        money=[_money(owed, quotes, shop.exponent) for owed in sums] if sees_money else None,
        exponent=shop.exponent,
    )


def _outside(
    owed: OutsideOwed, quotes: Mapping[UUID, Quote], contact: str | None, shop: Shop, now: datetime
) -> OwedOutsideOut:
    zone = ZoneInfo(shop.zone)
    state = outside_state(owed.progress, owed.due, now)
    due_on = owed.due.astimezone(zone).date() if owed.due else None
    return OwedOutsideOut(
        job=owed.job.pk,
        number=str(owed.job),
        quote=_quote(owed.job, quotes),
        customer=owed.job.customer.name,
        plate=owed.job.vehicle.plate,
        title=owed.work.title,
        firm=owed.work.firm,
        work=owed.work.code,
        contact=contact,
        state=state,
        words=outside_sentence(owed.progress, state, due_on, now.astimezone(zone).date()),
        due_on=due_on,
    )


def _core(owed: CoreOwed, quotes: Mapping[UUID, Quote], shop: Shop, now: datetime, *, sees_money: bool) -> OwedCoreOut:
    zone = ZoneInfo(shop.zone)
    agreed_on = owed.agreed_at.astimezone(zone).date()
    days = (now.astimezone(zone).date() - agreed_on).days
    return OwedCoreOut(
        job=owed.job.pk,
        number=str(owed.job),
        quote=_quote(owed.job, quotes),
        customer=owed.job.customer.name,
        phone=owed.job.customer.phone if sees_money else None,
        title=listed(list(owed.titles)),
        days=days,
        words=say("owed.core", n=days, day=day_words(agreed_on)) if days else say("owed.core.today"),
        amount=money(owed.amount, shop.exponent) if sees_money else None,
    )


def _money(owed: MoneyOwed, quotes: Mapping[UUID, Quote], exponent: int) -> OwedMoneyOut:
    job = owed.job
    return OwedMoneyOut(
        job=job.pk,
        number=str(job),
        quote=_quote(job, quotes),
        customer=job.customer.name,
        phone=job.customer.phone,
        amount=None if owed.amount is None else money(owed.amount, exponent),
        words=_ended(job) if owed.amount is None else say("owed.closed" if owed.amount > 0 else "owed.pay_back"),
    )


def _ended(job: Job) -> str:
    if job.called_off_on:
        return say("owed.called_off", day=day_words(job.called_off_on))
    return say("owed.handed_over", day=day_words(job.handed_over_on)) if job.handed_over_on else say("owed.ended")


def _quote(job: Job, quotes: Mapping[UUID, Quote]) -> UUID | None:
    return quotes[job.pk].pk if job.pk in quotes else None
