"""Headers for every answer, and problem+json for refusals by the router or Django below /api/."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

from shop.api.limits import head_of, refusal
from shop.api.problems import CONTENT_TYPE, problem, problem_response
from shop.errors import RequestError
from shop.words.languages import speaking

Handler = Callable[[HttpRequest], HttpResponse]

CSP = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "media-src 'self' blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "worker-src 'self'",
        "manifest-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
)
SLUGS = {
    400: "malformed",
    403: "not-for-this-role",
    404: "not-found",
    405: "method-not-allowed",
    413: "too-large",
}


def content_security(get_response: Handler) -> Handler:
    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response.headers.setdefault("Content-Security-Policy", CSP)
        response.headers.setdefault("Permissions-Policy", "camera=(self), geolocation=(), microphone=()")
        return response

    return middleware


def in_a_language(get_response: Handler) -> Handler:
    """Starts each request in our own language. `Endpoint.admit` or a link's page calls `speak` with the reader's."""

    def middleware(request: HttpRequest) -> HttpResponse:
        with speaking():
            return get_response(request)

    return middleware


def no_store(get_response: Handler) -> Handler:
    """Marks answers of the API as no-store: they hold customers' names and prices."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if request.path.startswith("/api/"):
            response["Cache-Control"] = "no-store"
        return response

    return middleware


def body_limits(get_response: Handler) -> Handler:
    """Refuses a body that the address does not accept, by its headers, before anything reads the body."""

    def middleware(request: HttpRequest) -> HttpResponse:
        problem = refusal(head_of(request))
        return get_response(request) if problem is None else _refused(request, problem)

    return middleware


def cookies_of_text(get_response: Handler) -> Handler:
    """Drops cookies with NUL: a lookup by one would fail on PostgreSQL."""

    def middleware(request: HttpRequest) -> HttpResponse:
        for name in [name for name, value in request.COOKIES.items() if "\0" in value]:
            del request.COOKIES[name]
        return get_response(request)

    return middleware


def _refused(request: HttpRequest, error: RequestError) -> HttpResponse:
    if request.path.startswith("/api/"):
        response = problem_response(error)
    else:
        words = problem(error).body()["detail"]
        response = HttpResponse(words, status=error.status, content_type="text/plain; charset=utf-8")
    response["Content-Length"] = str(len(response.content))
    return response


def problems_for_the_api(get_response: Handler) -> Handler:
    """Turns HTML errors below /api/, such as 404 for an unknown address, into problems."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if not request.path.startswith("/api/") or response.status_code < 400:
            return response
        if response.get("Content-Type", "").startswith((CONTENT_TYPE, "application/json")):
            return response
        slug = SLUGS.get(response.status_code, "unforeseen" if response.status_code >= 500 else "refused")
        return problem_response(RequestError(response.status_code, slug, why=""))

    return middleware
