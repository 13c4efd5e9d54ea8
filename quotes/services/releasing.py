"""Releases the proposed orders and outside work of a job: by a person, or with the deposit if the rules say so."""

from datetime import datetime

from django.db import transaction

from quotes.documents.release import release_content
from quotes.models import Release
from quotes.queries.releases import release_facts, too_early
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job, Payment
from shop.models.jobs import ENDED
from shop.queries.calendar import shop_day
from shop.services import feed, history


@transaction.atomic
def release_job(*, actor: Actor, job: Job, now: datetime) -> Release:
    """Records the present proposals as released. Refused: nothing to order, a customer who may still withdraw."""
    Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    if _too_early(actor, job, now):
        raise RequestError(409, "release-too-early")
    release = _release(actor, job, now, None)
    if release is None:
        raise RequestError(409, "nothing-to-release")
    return release


@transaction.atomic
def release_by_deposit(*, actor: Actor, job: Job, payment: Payment, now: datetime) -> Release | None:
    """Releases with the payment that completes the deposit, where the rules say so; once, and not too early.

    For a job that has ended nothing is released here: a person releases what it still needs.
    """
    if Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk).state in ENDED:
        return None
    facts = release_facts(job, shop_day(actor.shop, now))
    if not facts.by_deposit or facts.deposit_awaited or facts.releases or _too_early(actor, job, now):
        return None
    return _release(actor, job, now, payment)


def _too_early(actor: Actor, job: Job, now: datetime) -> bool:
    return too_early(job, shop_day(actor.shop, now))


def _release(actor: Actor, job: Job, now: datetime, payment: Payment | None) -> Release | None:
    """The release of what is proposed; None for nothing."""
    content = release_content(actor, job, release_facts(job, shop_day(actor.shop, now)), now)
    if not content["suppliers"] and not content["outside"]:
        return None
    release = Release(
        shop=actor.shop, job=job, released_at=now, released_by=actor.member, payment=payment, content=content
    )
    release.clean_fields()
    release.save(force_insert=True)
    history.record(actor=actor, verb="released", row=release)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return release
