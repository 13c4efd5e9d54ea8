from collections.abc import Iterable
from typing import Any
from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.kits import KitOut, KitRowOut
from kitting.models import Kit as KitRow
from kitting.models import KitLine, KitOutside, KitRevision, Need, ReusedPart
from kitting.presenters.kits import MODEL, kit_answer, kit_row
from kitting.serializers.kits import KitChange, KitIn
from kitting.services import kits
from shop import access as shop_access
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.api.params import check_hours, check_price, parse_uuid
from shop.api.query_parameters import an_id
from shop.queries.search import by_key

MOST_FILES = 50


class Kits(Endpoint):
    """The shop's kits by name or number; with `vehicle`, whether each fits it."""

    request_bodies = {"post": KitIn}
    responses = {"get": list_of(KitRowOut), "post": {201: KitOut}}
    permissions = {"get": shop_access.EVERYONE, "post": shop_access.COUNTER}
    query_parameters = {"q": "part of the title or the number", "vehicle": an_id("does it fit this one?")}
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the kits."""
        attributes = self._attributes(request)
        rows = access.kits_with_newest_revision(self.actor)
        matches = by_key(rows, request.query_params.get("q", ""), "title_key", "part__number_key")
        return self.page(request, matches, ("title_key", "id"), lambda kit: kit_row(kit, newest(kit), attributes))

    def post(self, request: Request, slug: str) -> Response:
        """Add a kit with a price and hours of its own."""
        body = self.body(request)
        price = check_price(body.pop("price"), "/price", self.actor.shop.exponent)
        contents = kits.NewRevision(
            price=price,
            hours=check_hours(body.pop("hours"), "/hours"),
            cost=body.pop("cost"),
            lead_days=body.pop("lead_days"),
            fits=for_models(body.pop("models")),
        )
        revision = kits.add_kit(actor=self.actor, contents=contents, **body)
        return Response(detail(self.actor, access.kit_with_newest_revision(self.actor, revision.kit_id)), status=201)

    def _attributes(self, request: Request) -> dict[str, str] | None:
        vehicle = request.query_params.get("vehicle")
        if vehicle is None:
            return None
        attributes: dict[str, str] = shop_access.vehicle(self.actor, parse_uuid(vehicle, "/vehicle")).attributes
        return attributes


class Kit(Endpoint):
    """One kit with the contents list of its newest version; its selling price only for those who quote."""

    request_bodies = {"patch": KitChange}
    responses = {"get": KitOut, "patch": KitOut}
    permissions = {"get": shop_access.EVERYONE, "patch": shop_access.COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one kit."""
        return Response(detail(self.actor, access.kit_with_newest_revision(self.actor, id)))

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Record how often a kit was fitted before."""
        kit, body = access.kit(self.actor, id), self.body(request)
        if "fitted_before" in body:
            kits.set_fitted_before(actor=self.actor, kit=kit, fitted_before=body["fitted_before"])
        return Response(detail(self.actor, access.kit_with_newest_revision(self.actor, id)))


def for_models(models: Iterable[str]) -> tuple[dict[str, Any], ...]:
    """The condition that a vehicle is one of these models; empty without models."""
    named = list(dict.fromkeys(models))
    return ({"attribute": MODEL, "in": named},) if named else ()


def newest(kit: KitRow) -> KitRevision | None:
    """The newest revision of a kit from access.kits_with_newest_revision."""
    revisions: list[KitRevision] = kit.newest  # type: ignore[attr-defined]
    return revisions[0] if revisions else None


def detail(actor: shop_access.Actor, kit: KitRow) -> KitOut:
    revision = newest(kit)
    below = {"shop_id": kit.shop_id, "revision": revision}
    return kit_answer(
        kit_row(kit, revision, None),
        kit,
        revision,
        list(KitLine.objects.filter(**below).select_related("part", "operation").order_by("position")),
        Need.objects.filter(**below).select_related("consumable", "part", "operation").order_by("position"),
        ReusedPart.objects.filter(**below).select_related("off_at", "back_at").order_by("position"),
        KitOutside.objects.filter(**below).select_related("firm", "starts_after", "needed_by").order_by("position"),
        priced=actor.role in shop_access.COUNTER,
        files=_with_files(actor, kit),
    )


def _with_files(actor: shop_access.Actor, kit: KitRow) -> list[KitRevision]:
    """The newest versions that were imported from a file, for whoever may read it. The bytes are not read."""
    if actor.role not in shop_access.STORES:
        return []
    rows = KitRevision.objects.filter(shop=actor.shop, kit=kit, file__isnull=False).select_related("file")
    names = rows.only("number", "shop", "file__shop", "file__file_name", "file__dropped_at")
    return list(names.order_by("-number")[:MOST_FILES])
