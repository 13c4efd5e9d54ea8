from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.calendar_feeds import CalendarFeedsOut, NewCalendarFeedOut
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.api.public_address import address
from shop.presenters.calendar_feeds import feed_answer
from shop.serializers.calendar_feeds import NewCalendarFeedIn
from shop.services.calendar_feeds import make_feed, revoke_feed


class CalendarFeeds(Endpoint):
    """The secret addresses from which calendars read the days of open jobs. Each is shown once."""

    request_bodies = {"post": NewCalendarFeedIn}
    responses = {"get": CalendarFeedsOut, "post": {201: NewCalendarFeedOut}}
    permissions = {"get": access.OFFICE, "post": access.OFFICE}
    needs_password = "calendar-needs-password"

    def get(self, request: Request, slug: str) -> Response:
        """List the addresses that have not been revoked."""
        return Response(CalendarFeedsOut(items=[feed_answer(row) for row in access.calendar_feeds(self.actor)]))

    def post(self, request: Request, slug: str) -> Response:
        """Make an address for a calendar."""
        row, secret = make_feed(actor=self.actor, title=self.body(request)["title"], now=timezone.now())
        feed, url = feed_answer(row), address(request, f"/calendar/{row.pk}/{secret}.ics")
        return SecretAnswer(NewCalendarFeedOut(feed=feed, url=url), stored=NewCalendarFeedOut(feed=feed, url=None))


class CalendarFeed(Endpoint):
    """An address for a calendar. DELETE revokes it: nothing is found there any more."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Revoke the address of a calendar."""
        revoke_feed(actor=self.actor, feed=access.calendar_feed(self.actor, id), now=timezone.now())
        return Response(status=204)
