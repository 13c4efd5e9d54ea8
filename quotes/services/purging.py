"""Throws discarded drafts away for good once the shop's retention has passed."""

from datetime import datetime

from django.db import transaction

from quotes.models import Quote, Revision
from shop.models import Shop
from shop.services.retention import purged_after_retention


@purged_after_retention
@transaction.atomic
def purge_discarded(shop: Shop, before: datetime) -> int:
    """Deletes the quotes that were discarded before this instant, with all that was chosen for them; their number.

    Only a quote that was never sent can be discarded. Its history stays.
    """
    rows = Quote.objects.select_for_update(of=("self",)).filter(shop=shop, discarded_at__lt=before)
    quotes = list(rows.order_by("pk"))
    Revision.objects.filter(shop=shop, quote__in=[quote.pk for quote in quotes]).delete()
    for quote in quotes:
        quote.delete()
    return len(quotes)
