from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.api_tokens import NewTokenOut, TokensOut
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.presenters.api_tokens import token_answer
from shop.serializers.api_tokens import NewTokenIn
from shop.services.api_tokens import make_token, revoke_token


class ApiTokens(Endpoint):
    """The access keys by which other programs use this interface. The secret of one is shown once."""

    request_bodies = {"post": NewTokenIn}
    responses = {"get": TokensOut, "post": {201: NewTokenOut}}
    permissions = {"get": access.OFFICE, "post": access.OFFICE}
    needs_password = "token-needs-password"

    def get(self, request: Request, slug: str) -> Response:
        """List the tokens that have not been revoked."""
        now = timezone.now()
        return Response(TokensOut(items=[token_answer(row, now) for row in access.tokens(self.actor)]))

    def post(self, request: Request, slug: str) -> Response:
        """Make a token."""
        body, now = self.body(request), timezone.now()
        member = access.member(self.actor, body.pop("member"))
        row, secret = make_token(actor=self.actor, member=member, now=now, **body)
        token = token_answer(row, now)
        return SecretAnswer(NewTokenOut(token=token, secret=secret), stored=NewTokenOut(token=token, secret=None))


class ApiToken(Endpoint):
    """A token. DELETE revokes it: from then on it opens nothing."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Revoke a token."""
        revoke_token(actor=self.actor, token=access.token(self.actor, id), now=timezone.now())
        return Response(status=204)
