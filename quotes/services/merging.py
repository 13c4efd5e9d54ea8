"""Puts two records of one customer together: one stays with everything, the other leads to it."""

from django.db import transaction
from django.db.models import F

from quotes.models import Quote
from quotes.queries.merging import belongings, lacking
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Customer, Job, Vehicle
from shop.services import feed, history
from shop.services.customers import change_customer
from shop.services.search_words import keep_words


@transaction.atomic
def merge_customers(*, actor: Actor, stays: Customer, goes: Customer, seen: tuple[int, int]) -> Customer:
    """Moves all that belongs to `goes` to `stays`. Texts that were sent keep the name and the address they have.

    `seen` are the versions of both that were on the screen; refused if one has changed since.
    """
    of_both = Quote.objects.select_for_update().filter(shop=actor.shop, customer__in=(stays, goes))
    list(of_both.order_by("pk").values_list("pk"))  # quotes first, the order in which changes to a draft lock
    rows = Customer.objects.select_for_update().filter(shop=actor.shop, pk__in=(stays.pk, goes.pk)).order_by("pk")
    locked = {row.pk: row for row in rows}
    stays, goes = locked[stays.pk], locked[goes.pk]
    if (stays.version, goes.version) != seen:
        raise RequestError(409, "customers-changed-meanwhile")
    moved = belongings(goes, stays)
    Quote.objects.filter(shop=actor.shop, customer=goes).update(customer=stays)
    Job.objects.filter(shop=actor.shop, customer=goes).update(customer=stays)
    Vehicle.objects.filter(shop=actor.shop, customer=goes).update(customer=stays, version=F("version") + 1)
    Customer.objects.filter(shop=actor.shop, merged_into=goes).update(merged_into=stays)
    if taken := {name: getattr(goes, name) for name in lacking(goes, stays)}:
        stays = change_customer(actor=actor, customer=stays, seen=stays.version, changes=taken)
    goes.archived, goes.merged_into, goes.version = True, stays, goes.version + 1
    goes.save(update_fields=["archived", "merged_into", "version"])
    keep_words([goes])
    counts = {name: [0, getattr(moved, name)] for name in ("quotes", "vehicles", "jobs", "payments")}
    history.record(actor=actor, verb="merged", row=stays, changes={"record": [str(goes.pk), goes.name], **counts})
    history.record(actor=actor, verb="merged away", row=goes, changes={"into": ["", str(stays.pk)]})
    for kind in (feed.Kind.DRAFTS, feed.Kind.JOBS, feed.Kind.QUOTES):
        feed.record(actor=actor, kind=kind)
    return stays
