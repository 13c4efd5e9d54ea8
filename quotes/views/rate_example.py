from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes.answers.rate_example import RateExampleOut
from quotes.presenters.examples import example_of
from quotes.presenters.rate_example import rate_example
from quotes.queries.pricing import shop_day
from quotes.serializers.rate_example import RateExampleIn
from shop.access import OFFICE
from shop.api.endpoint import Endpoint
from shop.queries.rates import TwoRates, rate_on
from shop.services.rates import proposed_rate


class RateExample(Endpoint):
    """Shows what another exchange rate does to one quote of the shop. Nothing is written."""

    request_bodies = {"post": RateExampleIn}
    responses = {"post": RateExampleOut}
    permissions = {"post": OFFICE}
    idempotency_key = False

    def post(self, request: Request, slug: str) -> Response:
        """Price a quote by another exchange rate."""
        body, now, shop = self.body(request), timezone.now(), self.actor.shop
        today, currency = shop_day(shop, now), body["currency"]
        valid_from = body["valid_from"] or today
        typed = proposed_rate(actor=self.actor, currency=currency, rate=body["rate"], valid_from=valid_from)
        rates = TwoRates(rate_on(shop, currency, today), typed)
        return Response(rate_example(example_of(self.actor, body.get("quote")), rates, now))
