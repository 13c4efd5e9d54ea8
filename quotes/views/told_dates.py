from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes.answers.told_dates import ToldDatesOut
from quotes.presenters.told_dates import told_dates_answer
from quotes.serializers.told_dates import ToldDateIn
from quotes.services.told_dates import tell_date
from shop.api.endpoint import Endpoint


class ToldDates(Endpoint):
    """The date of a job that moved, and what its customer was told. Nothing is told without a person."""

    request_bodies = {"post": ToldDateIn}
    responses = {"get": ToldDatesOut, "post": {201: ToldDatesOut}}
    permissions = {"get": shop.access.COUNTER, "post": shop.access.COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the expected date of a job and the dates that its customer was told."""
        return Response(told_dates_answer(shop.access.job(self.actor, id), timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Tell the customer a date that moved, or record that they were told by telephone."""
        job, now = shop.access.job(self.actor, id), timezone.now()
        tell_date(actor=self.actor, job=job, now=now, **self.body(request))
        return Response(told_dates_answer(job, now), status=201)
