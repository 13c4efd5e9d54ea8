from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes.answers.hours_example import HoursExampleOut
from quotes.presenters.examples import example_of
from quotes.presenters.hours_example import ProposedHours, closed_example, holidays_example, hours_example
from quotes.queries.pricing import shop_day
from quotes.serializers.hours_example import ClosedDaysExampleIn, HolidaysExampleIn, HoursExampleIn
from shop.access import OFFICE
from shop.api.endpoint import Endpoint
from shop.queries.calendar import calendar_from
from shop.services.opening_hours import days_between, proposed_weeks


class HoursExample(Endpoint):
    """Shows what other opening hours do to the date of one quote of the shop. Nothing is written."""

    request_bodies = {"post": HoursExampleIn}
    responses = {"post": HoursExampleOut}
    permissions = {"post": OFFICE}
    idempotency_key = False

    def post(self, request: Request, slug: str) -> Response:
        """Work out the date of a quote by changed opening hours."""
        body, now, shop = self.body(request), timezone.now(), self.actor.shop
        today = shop_day(shop, now)
        valid_from = body["valid_from"] or today
        weeks = proposed_weeks(shop=shop, days=body["week"], valid_from=valid_from, today=today)
        proposed = ProposedHours(valid_from, calendar_from(shop, weeks, today))
        return Response(hours_example(example_of(self.actor, body.get("quote")), proposed, now))


class ClosedDaysExample(Endpoint):
    """Shows what further closed days do to the date of one quote of the shop. Nothing is written."""

    request_bodies = {"post": ClosedDaysExampleIn}
    responses = {"post": HoursExampleOut}
    permissions = {"post": OFFICE}
    idempotency_key = False

    def post(self, request: Request, slug: str) -> Response:
        """Work out the date of a quote with further closed days."""
        body = self.body(request)
        days = days_between(body["first"], body["last"] or body["first"])
        return Response(closed_example(example_of(self.actor, body.get("quote")), days, timezone.now()))


class HolidaysExample(Endpoint):
    """Shows what a choice of holidays does to the date of one quote of the shop. Nothing is written."""

    request_bodies = {"post": HolidaysExampleIn}
    responses = {"post": HoursExampleOut}
    permissions = {"post": OFFICE}
    idempotency_key = False

    def post(self, request: Request, slug: str) -> Response:
        """Work out the date of a quote with holidays on which the shop is closed."""
        body = self.body(request)
        days = sorted({day["date"] for day in body["days"]})
        return Response(holidays_example(example_of(self.actor, body.get("quote")), days, timezone.now()))
