from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import kitting.access
from quotes.answers.prices import KitPriceRangeOut
from quotes.presenters.undecided import range_answer
from quotes.queries.pricing import kit_figures, shop_day
from quotes.views.quotes import COUNTER
from shop.access import rules_on
from shop.api.endpoint import Endpoint
from shop.calc.rules import Rules


class KitPriceRange(Endpoint):
    """The least and the most that a kit comes to, fitted, for any vehicle: to say on the phone."""

    responses = {"get": KitPriceRangeOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the price range of a kit."""
        kit, now = kitting.access.kit(self.actor, id), timezone.now()
        revision = kitting.access.kit_revision(kit, None)
        rules = rules_on(self.actor.shop, shop_day(self.actor.shop, now))
        if revision is None or rules is None:
            return Response(KitPriceRangeOut(None))
        return Response(KitPriceRangeOut(range_answer(kit_figures(revision, Rules.from_json(rules.rules), now))))
