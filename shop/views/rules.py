from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop.access import OFFICE, Actor, rule_set, rule_sets
from shop.answers.rule_sets import RuleSetOut, RuleSetRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.presenters.rule_sets import rule_set_answer, rule_set_row
from shop.queries.calendar import shop_day
from shop.queries.rule_sets import InForce, in_force
from shop.serializers.rules import RulesChangeIn
from shop.services.rule_changes import change_rules


class Rules(Endpoint):
    """The sets of price rules, last written first. A POST writes the next one; what was sent keeps its own."""

    request_bodies = {"post": RulesChangeIn}
    responses = {"get": list_of(RuleSetRowOut), "post": {201: RuleSetOut}}
    permissions = {"get": OFFICE, "post": OFFICE}
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the sets of price rules."""
        standing, shop = _standing(self.actor), self.actor.shop
        return self.page(request, rule_sets(self.actor), ("-number",), lambda row: rule_set_row(row, shop, standing))

    def post(self, request: Request, slug: str) -> Response:
        """Change the price rules from a day on."""
        today = shop_day(self.actor.shop, timezone.now())
        row = change_rules(actor=self.actor, change=self.body(request), today=today)
        return Response(_answer(self.actor, row.pk, _standing(self.actor)), status=201)


class RulesInForce(Endpoint):
    """The price rules that quotes begun today use; 404 in a shop without."""

    responses = {"get": RuleSetOut}
    permissions = {"get": OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """Read the price rules in force."""
        standing = _standing(self.actor)
        if standing.today is None:
            raise Http404
        return Response(_answer(self.actor, standing.today.pk, standing))


class RuleSet(Endpoint):
    """One set of price rules, with its difference from the set before."""

    responses = {"get": RuleSetOut}
    permissions = {"get": OFFICE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read a set of price rules."""
        return Response(_answer(self.actor, id, _standing(self.actor)))


def _standing(actor: Actor) -> InForce:
    return in_force(actor.shop, shop_day(actor.shop, timezone.now()))


def _answer(actor: Actor, id: UUID, standing: InForce) -> RuleSetOut:
    return rule_set_answer(rule_set(actor, id), actor.shop, standing)
