"""Lets a customer with a valid link in, and shows everybody else a page that says nothing of the quote."""

from datetime import timedelta
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from quotes import access
from quotes.calc.forms import FrozenContent
from quotes.models import Link, Revision
from quotes.queries import frozen
from quotes.queries.link_life import works_at, works_until
from shop.models import Shop
from shop.words.languages import speak

OPEN_JOB = timedelta(days=365)  # the life of the cookie for the page of an open job
COOKIE = settings.LINK_COOKIE_NAME


def nowhere(request: HttpRequest, rest: str = "") -> HttpResponse:
    """Answers an unknown address with the page for a link that no longer works, and does not log it."""
    return _dead(request, access.only_shop())


def enter(request: HttpRequest, id: UUID, token: str) -> HttpResponse:
    """Exchanges the secret in the address for a cookie of this link's pages, and redirects to a clean address."""
    link = usable(access.link_by_token(id, token)) if request.method in ("GET", "HEAD") else None
    if link is None:
        return gone(request, id)
    response = HttpResponseRedirect(reverse("quote-page", args=[id]))
    response.status_code = 303
    response.set_cookie(
        COOKIE,
        token,
        path=f"/q/{id}/",
        expires=works_until(link) or timezone.now() + OPEN_JOB,
        httponly=True,
        secure=settings.SECURE_COOKIES,
        samesite="Lax",
    )
    return private(response)


def read(link: Link, revision: Revision) -> FrozenContent:
    """The frozen text; from here on the page speaks its language, also where the customer's has changed since."""
    document = frozen.read(revision)
    speak(document["language"], *link.quote.languages)
    return document


def from_cookie(request: HttpRequest, id: UUID) -> Link | None:
    return usable(access.link_by_token(id, request.COOKIES.get(COOKIE, "")))


def usable(link: Link | None) -> Link | None:
    """The link, if it still works. Sets the current language to the customer's."""
    if link is None or not works_at(link, timezone.now()):
        return None
    speak(*link.quote.languages)
    return link


def gone(request: HttpRequest, id: UUID) -> HttpResponse:
    """The page for every link of a shop that does not work, whether the secret is right or wrong.

    For an unknown id the shop is named only if it is the installation's only one.
    """
    return _dead(request, access.shop_of_link(id) or access.only_shop())


def _dead(request: HttpRequest, house: Shop | None) -> HttpResponse:
    """Answers in the shop's language: the customer's would tell whose link it was."""
    speak(house.language if house else "")
    return private(render(request, "quotes/gone.html", {"house": house}, status=410))


def private(response: HttpResponse, referrer: str = "no-referrer") -> HttpResponse:
    """Adds headers against storing, indexing and passing on. The request is not logged: it may hold the secret."""
    response["Cache-Control"] = "no-store"
    response["Referrer-Policy"] = referrer
    response["X-Robots-Tag"] = "noindex"
    response._has_been_logged = True  # type: ignore[attr-defined]
    return response
