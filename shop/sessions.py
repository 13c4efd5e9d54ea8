"""The session engine: sessions are rows with their person, an idle limit and a maximum age.

Only a request that changes something extends the idle limit. Reading does not: an open screen polls by itself.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any, cast
from uuid import UUID

from django.conf import settings
from django.contrib.auth import SESSION_KEY
from django.contrib.sessions.backends import db
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.crypto import salted_hmac

from shop.compiled import compiled
from shop.models import PersonSession

STARTED, AGENT = "started_at", "agent"
READS = ("GET", "HEAD", "OPTIONS")
STEP = timedelta(minutes=10)  # the limit moves in steps, so that not every count writes the session as well


def expiry(started: datetime, now: datetime) -> datetime:
    """The end of a session begun at `started` if no request changes anything after `now`."""
    idle, longest = timedelta(hours=settings.SESSION_IDLE_HOURS), timedelta(hours=settings.SESSION_HOURS)
    return min(now + idle, started + longest)


def session_id(key: str) -> UUID:
    """The public id of a sign-in. The session key, which is a secret, cannot be derived from it."""
    return UUID(bytes=salted_hmac("shop.services.sessions", key, algorithm="sha256").digest()[:16])


@compiled
def _session(key: str) -> QuerySet[PersonSession]:
    return PersonSession.objects.filter(pk=key)


class SessionStore(db.SessionStore):
    row: PersonSession | None = None

    @classmethod
    def get_model_class(cls) -> type[PersonSession]:
        return PersonSession

    def create_model_instance(self, data: Any) -> PersonSession:
        now = timezone.now()
        started = datetime.fromtimestamp(data.setdefault(STARTED, now.timestamp()), UTC)
        row = cast(PersonSession, super().create_model_instance(data))
        row.user_id, row.started_at, row.expire_date = data.get(SESSION_KEY), started, expiry(started, now)
        return row

    def _get_session_from_db(self) -> PersonSession | None:
        self.row = _session.first(self.session_key or "")
        if self.row is None or self.row.expire_date <= timezone.now():
            self.row = self._session_key = None
        return self.row

    def extend(self, now: datetime) -> None:
        """Extends the idle limit of a session that was read from the database."""
        if self.row is None:
            return
        until = expiry(self.row.started_at, now)
        if until - self.row.expire_date >= STEP:
            PersonSession.objects.filter(pk=self.row.pk).update(expire_date=until)


def acts_extend_the_session(get_response: Callable[[HttpRequest], HttpResponse]) -> Any:
    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if request.method not in READS and response.status_code < 400 and isinstance(request.session, SessionStore):
            request.session.extend(timezone.now())
        return response

    return middleware


def only_acts_remove_the_cookie(get_response: Callable[[HttpRequest], HttpResponse]) -> Any:
    """Keeps the browser's session cookie when a request with an ended session is refused.

    A new password replaces the cookie. The refusal of a request sent before that arrives after it and would remove the
    new cookie. Signing out is a change that succeeds and removes it.
    """

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        cookie = response.cookies.get(settings.SESSION_COOKIE_NAME)
        if cookie is not None and not cookie.value and (request.method in READS or response.status_code >= 400):
            del response.cookies[settings.SESSION_COOKIE_NAME]
        return response

    return middleware
