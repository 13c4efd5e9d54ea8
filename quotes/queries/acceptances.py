"""The acceptances of a job: that of the quote that opened it, and those of its changes."""

from uuid import UUID

from django.db.models import QuerySet

from quotes.models import Decision


def acceptances_of(shop: UUID, job: UUID) -> QuerySet[Decision]:
    return Decision.objects.filter(shop=shop, quote__job=job, quote__shop=shop, answer=Decision.Answer.ACCEPTED)
