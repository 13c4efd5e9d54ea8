"""Authentication by an API token in `Authorization: Bearer`, and what a token opens.

A request with a token is authenticated by the token alone: cookies do not count, so no CSRF token is needed. A token
opens the addresses of its areas, as far as the member's role may use them. An address that `AREAS` does not name is
closed to every token: those of people, passwords, tokens, price rules and files are.
"""

from typing import Any

from django.utils import timezone
from rest_framework.authentication import BaseAuthentication
from rest_framework.exceptions import AuthenticationFailed, Throttled
from rest_framework.request import Request

from shop.api.rates import check_rate
from shop.errors import RequestError
from shop.models import ApiToken
from shop.models.api_tokens import TokenArea
from shop.services.api_tokens import note_use, token_of
from shop.services.sign_in_tries import TooManyTriesError, count_try

SCHEME = "bearer"
READS = frozenset({"get", "head"})
AREAS = {
    "consumables": TokenArea.STOCK,
    "counter": TokenArea.QUOTES,
    "customers": TokenArea.QUOTES,
    "jobs": TokenArea.JOBS,
    "kits": TokenArea.STOCK,
    "money": TokenArea.JOBS,
    "operations": TokenArea.STOCK,
    "outside-work": TokenArea.QUOTES,
    "owed": TokenArea.JOBS,
    "pull-lists": TokenArea.PARTS,
    "quotes": TokenArea.QUOTES,
    "replaced-numbers": TokenArea.STOCK,
    "suppliers": TokenArea.STOCK,
    "templates": TokenArea.STOCK,
    "vehicles": TokenArea.QUOTES,
}
"""The area of each collection below a shop."""


class TokenRefusedError(AuthenticationFailed):
    """401: the token is unknown, revoked or expired."""


class BearerToken(BaseAuthentication):
    """Signs in a request with a token in force; 401 for another token, and 429 after too many wrong ones from an
    address.
    """

    def authenticate(self, request: Request) -> Any:
        header = request.headers.get("Authorization", "")
        if not is_bearer(header):
            return None
        secret = header.partition(" ")[2]
        now = timezone.now()
        token = token_of(secret=secret.strip(), now=now)
        if token is None:
            _count_wrong_token(request)
            raise TokenRefusedError
        check_rate(token.pk)
        note_use(token=token, now=now)
        user = token.member.user
        request._request._cached_user = user  # type: ignore[attr-defined]  # so that the log line names the person
        return user, token

    def authenticate_header(self, request: Request) -> str:
        return "Bearer"


def is_bearer(authorization: str) -> bool:
    """Whether the header Authorization holds a token, in force or not."""
    return authorization.partition(" ")[0].lower() == SCHEME


def token_of_request(request: Request) -> ApiToken | None:
    """The token by which the request came in; None for a person with a session."""
    return request.auth if isinstance(request.auth, ApiToken) else None


def area_of(route: str) -> TokenArea | None:
    """The area of an address, by the collection in its route: "api/v1/shops/<slug:slug>/quotes/<uuid:id>"."""
    parts = route.split("/")
    return AREAS.get(parts[4]) if len(parts) > 4 else None


def check_reach(token: ApiToken, *, slug: str | None, route: str, method: str) -> None:
    """404 in another shop than the token's; 403 outside its areas, and for a change by a token that only reads."""
    if slug is not None and slug != token.shop.slug:
        raise RequestError(404, "not-found")
    area = area_of(route)
    if slug is None or area is None:
        raise RequestError(403, "closed-to-tokens")
    if area not in token.areas:
        raise RequestError(403, "outside-token", area=area)
    if method not in READS and not token.may_write:
        raise RequestError(403, "token-reads-only")


def _count_wrong_token(request: Request) -> None:
    """Counts wrong tokens of an address together, and apart from the people who sign in there."""
    try:
        count_try(email="token", address=request.META.get("REMOTE_ADDR", ""), now=timezone.now())
    except TooManyTriesError as error:
        raise Throttled(wait=int(error.wait.total_seconds())) from None
