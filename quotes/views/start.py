from typing import get_args

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes.answers.start import StartOut, StepCode
from quotes.presenters.start import start_answer
from quotes.queries.start import start_steps
from quotes.serializers.start import StartStepIn
from shop.access import OFFICE, Actor
from shop.api.endpoint import Endpoint
from shop.queries.calendar import shop_day
from shop.services.start import leave_for_later


class Start(Endpoint):
    """The guided start of a shop: each step is done once the shop has what it asks for."""

    responses = {"get": StartOut}
    permissions = {"get": OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """Read the guided start."""
        return Response(_answer(self.actor))


class OneStartStep(Endpoint):
    """A step of the guided start."""

    request_bodies = {"put": StartStepIn}
    responses = {"put": StartOut}
    permissions = {"put": OFFICE}

    def put(self, request: Request, slug: str, step: str) -> Response:
        """Leave a step for later, or take it up again."""
        body = self.body(request)
        if step not in get_args(StepCode):
            raise Http404
        leave_for_later(actor=self.actor, step=step, later=body["later"])
        return Response(_answer(self.actor))


def _answer(actor: Actor) -> StartOut:
    return start_answer(start_steps(actor.shop, shop_day(actor.shop, timezone.now())))
