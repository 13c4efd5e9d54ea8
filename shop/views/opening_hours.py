from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop.access import OFFICE, Actor
from shop.answers.holidays import HolidaysOut
from shop.answers.opening_hours import OpeningHoursOut
from shop.api.endpoint import Endpoint
from shop.api.query_parameters import text_like, whole
from shop.presenters.holidays import holidays_answer
from shop.presenters.opening_hours import opening_hours_answer
from shop.queries.calendar import days_closed, shop_day, weeks_of
from shop.queries.holidays import chosen_place, chosen_year, holidays_of
from shop.serializers.opening_hours import ClosedDaysIn, HolidaysIn, OpeningHoursIn
from shop.services.opening_hours import close_days, close_on, open_day, set_week, take_back_week

YEARS = 3  # this year and the next two: holidays further ahead may not be decided yet


class OpeningHours(Endpoint):
    """The opening hours of the week and the closed days to come, by which dates are worked out."""

    request_bodies = {"put": OpeningHoursIn}
    responses = {"get": OpeningHoursOut, "put": OpeningHoursOut}
    permissions = {"get": OFFICE, "put": OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """Read the opening hours."""
        return Response(_answer(self.actor))

    def put(self, request: Request, slug: str) -> Response:
        """Set the opening hours of the week from a day on."""
        body, today = self.body(request), shop_day(self.actor.shop, timezone.now())
        valid_from, seen = body["valid_from"] or today, body.get("seen")
        set_week(actor=self.actor, days=body["week"], valid_from=valid_from, today=today, seen=seen)
        return Response(_answer(self.actor))


class LaterHours(Endpoint):
    """Opening hours that have not begun. DELETE takes them back."""

    responses = {"delete": {204: None}}
    permissions = {"delete": OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Take back opening hours that have not begun."""
        if not take_back_week(actor=self.actor, id=id, today=shop_day(self.actor.shop, timezone.now())):
            raise Http404
        return Response(status=204)


class ClosedDays(Endpoint):
    """The days on which the shop is closed, such as holidays."""

    request_bodies = {"post": ClosedDaysIn}
    responses = {"post": {201: OpeningHoursOut}}
    permissions = {"post": OFFICE}

    def post(self, request: Request, slug: str) -> Response:
        """Close the shop on a day, or from one day to another."""
        body = self.body(request)
        last = body["last"] or body["first"]
        close_days(actor=self.actor, first=body["first"], last=last, reason=body["reason"])
        return Response(_answer(self.actor), status=201)


class OneClosedDay(Endpoint):
    """A day on which the shop is closed. DELETE opens it again."""

    responses = {"delete": {204: None}}
    permissions = {"delete": OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Open the shop on a day that was closed."""
        if not open_day(actor=self.actor, id=id):
            raise Http404
        return Response(status=204)


class Holidays(Endpoint):
    """The public holidays of a country. A POST closes the shop on those that a person has chosen."""

    request_bodies = {"post": HolidaysIn}
    responses = {"get": HolidaysOut, "post": {201: OpeningHoursOut}}
    permissions = {"get": OFFICE, "post": OFFICE}
    query_parameters = {
        "country": text_like("two letters; that of the shop's time zone where it is left out", "^[A-Z]{2}$"),
        "region": text_like("the code of a region; empty for the whole country", "^[A-Za-z0-9-]{0,10}$"),
        "year": whole("this one, or one of the next two", 1, 9999),
    }

    def get(self, request: Request, slug: str) -> Response:
        """Read the holidays of a country or region."""
        query, today = request.query_params, shop_day(self.actor.shop, timezone.now())
        country, region = chosen_place(self.actor.shop.zone, query.get("country"), query.get("region", ""))
        years = range(today.year, today.year + YEARS)
        year = chosen_year(query.get("year"), years)
        days = holidays_of(self.actor.shop, country, region, year, today) if country else []
        return Response(holidays_answer(country, region, year, years, days))

    def post(self, request: Request, slug: str) -> Response:
        """Close the shop on chosen holidays."""
        close_on(actor=self.actor, days={row["date"]: row["reason"] for row in self.body(request)["days"]})
        return Response(_answer(self.actor), status=201)


def _answer(actor: Actor) -> OpeningHoursOut:
    today = shop_day(actor.shop, timezone.now())
    return opening_hours_answer(weeks_of(actor.shop), days_closed(actor.shop, today), today)
