from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes.answers.newer_rules import RulesExampleOut
from quotes.presenters.examples import example_of
from quotes.presenters.rules_example import TwoSets, rules_example
from quotes.queries.pricing import shop_day
from quotes.serializers.rules_example import RulesExampleIn
from shop.access import OFFICE
from shop.api.endpoint import Endpoint
from shop.models import RuleSet
from shop.services.rule_changes import propose


class RulesExample(Endpoint):
    """Shows what a change of the price rules does to one quote of the shop. Nothing is written."""

    request_bodies = {"post": RulesExampleIn}
    responses = {"post": RulesExampleOut}
    permissions = {"post": OFFICE}
    idempotency_key = False

    def post(self, request: Request, slug: str) -> Response:
        """Price a quote by changed rules."""
        body, now = self.body(request), timezone.now()
        chosen = body.pop("quote", None)
        proposed = propose(actor=self.actor, change=body, today=shop_day(self.actor.shop, now))
        then = RuleSet(shop=self.actor.shop, valid_from=proposed.valid_from, rules=proposed.rules)
        sets = TwoSets(proposed.base or then, then, proposed.changes)
        return Response(rules_example(example_of(self.actor, chosen), sets, now))
