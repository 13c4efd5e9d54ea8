"""The app's shell, worker and manifest: public files without data. Sign-in state comes from the API."""

from collections.abc import Callable
from functools import cache

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from shop.words import say

# The paths that the app draws; the worker holds the same list.
OURS = r"^(?:$|sign-in$|[a-z0-9-]+/(?:counter|parts|bay|office)(?:/.*)?$)"


def built(name: str, content_type: str) -> Callable[[HttpRequest], HttpResponse]:
    """A view of a file of the built front end, which each process reads once."""

    @cache
    def body() -> bytes:
        return (settings.FRONT / name).read_bytes()

    @require_safe
    def view(request: HttpRequest, **kw: object) -> HttpResponse:
        try:
            response = HttpResponse(body(), content_type=content_type)
        except FileNotFoundError:
            return HttpResponse(say("app.not_built"), status=503, content_type="text/plain; charset=utf-8")
        response["Cache-Control"] = "no-cache"
        return response

    return view


shell = built("index.html", "text/html; charset=utf-8")
worker = built("sw.js", "text/javascript; charset=utf-8")  # at /sw.js, so that its scope is /
manifest = built("app.webmanifest", "application/manifest+json")


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return HttpResponse(say("app.not_found"), status=404, content_type="text/plain; charset=utf-8")


def foreign_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The answer to a form that fails the CSRF check, outside the API."""
    return HttpResponse(say("app.foreign_form"), status=403, content_type="text/plain; charset=utf-8")


def unforeseen(request: HttpRequest) -> HttpResponse:
    return HttpResponse(say("app.unforeseen"), status=500, content_type="text/plain; charset=utf-8")
