"""The cost of a kit: for advisor and manager alone, and changed by the manager."""

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.kits import KitCostOut
from kitting.queries.offers import newest_offers
from kitting.serializers.kits import KitCostIn
from kitting.services import kit_list
from shop import access as shop_access
from shop.api.endpoint import Endpoint, versioned
from shop.calc.quantity import at_least
from shop.queries.calendar import shop_day


class KitCost(Endpoint):
    """The cost of a kit, which counts until a supplier's price is recorded."""

    request_bodies = {"put": KitCostIn}
    responses = {"get": KitCostOut, "put": KitCostOut}
    permissions = {"get": shop_access.COUNTER, "put": shop_access.OFFICE}
    versioned = frozenset({"put"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the cost of a kit."""
        return _read(self.actor, id)

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Set the cost of a kit; another one makes its next version."""
        kit, seen = access.kit(self.actor, id), self.expected_version(request)
        kit_list.change_cost(actor=self.actor, kit=kit, seen=seen, cost=self.body(request)["cost"])
        return _read(self.actor, id)


def _read(actor: shop_access.Actor, id: UUID) -> Response:
    kit = access.kit(actor, id)
    revision = access.kit_revision(kit, None)
    cost = revision.cost if revision else None
    answer = KitCostOut(
        cost=None if cost is None else at_least(cost, actor.shop.exponent),
        is_offered=bool(newest_offers(actor.shop, [kit.part], shop_day(actor.shop, timezone.now()))),
        version=kit.version,
    )
    return versioned(answer, kit.version)
