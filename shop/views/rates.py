from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.rates import RateOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.presenters.rates import rate_answer
from shop.queries.calendar import shop_day
from shop.queries.rates import rates_in_force
from shop.serializers.rates import RateIn
from shop.services.rates import add_rate


class ExchangeRates(Endpoint):
    """The exchange rates by currency, the newest first. A rate never changes; a newer one replaces it."""

    request_bodies = {"post": RateIn}
    responses = {"get": list_of(RateOut), "post": {201: RateOut}}
    permissions = {"get": access.OFFICE, "post": access.OFFICE}
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the exchange rates."""
        today = shop_day(self.actor.shop, timezone.now())
        in_force = rates_in_force(self.actor.shop, today)
        rows = access.rates(self.actor)
        return self.page(request, rows, ("currency", "-valid_from"), lambda row: rate_answer(row, in_force, today))

    def post(self, request: Request, slug: str) -> Response:
        """Add an exchange rate."""
        body, today = self.body(request), shop_day(self.actor.shop, timezone.now())
        row = add_rate(
            actor=self.actor,
            currency=body["currency"],
            rate=body["rate"],
            valid_from=body["valid_from"] or today,
        )
        row = access.rates(self.actor).get(pk=row.pk)
        return Response(rate_answer(row, rates_in_force(self.actor.shop, today), today), status=201)
