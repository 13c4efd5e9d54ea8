"""The days of a shop's open jobs for a calendar (iCalendar, RFC 5545), behind a secret address."""

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from quotes import access
from quotes.documents.calendar import calendar_file
from quotes.queries.calendar import job_days
from shop.words.languages import speak


@require_safe
def calendar(request: HttpRequest, id: UUID, token: str) -> HttpResponse:
    """The feed. 404 alike for an address that was revoked and for one that never was.

    The same days give the same bytes, so the middleware's ETag spares a calendar what it has.
    """
    feed = access.calendar_feed(id, token)
    if feed is None:
        raise Http404
    speak(feed.shop.language)
    days = job_days(feed.shop, timezone.now())
    response = HttpResponse(calendar_file(feed.shop, days), content_type="text/calendar; charset=utf-8")
    response["Cache-Control"] = "private, no-cache"
    response["Content-Disposition"] = 'inline; filename="jobs.ics"'
    response["Referrer-Policy"] = "no-referrer"
    response["X-Robots-Tag"] = "noindex"
    return response
