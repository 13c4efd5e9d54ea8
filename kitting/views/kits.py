from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.http import Http404
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.kits import KitOut, KitRowOut, KitVersionOut
from kitting.models import Kit as KitRow
from kitting.models import KitRevision
from kitting.presenters.kit_versions import version_answer
from kitting.presenters.kits import MODEL, kit_answer, kit_row
from kitting.queries.conditions import typed_conditions
from kitting.queries.kit_versions import version_contents, versions_with_files
from kitting.serializers.kits import KitArchived, KitChange, KitDuplicate, KitIn
from kitting.services import kit_list, kits
from shop import access as shop_access
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.params import check_hours, check_price, parse_uuid, parse_whole
from shop.api.query_parameters import MOST_ASKED, an_id, archived_only, wants_archived, whole
from shop.presenters.entries import refusals_worded
from shop.queries.search import by_key


class Kits(Endpoint):
    """The shop's kits by name or number; with `vehicle`, whether each fits it."""

    request_bodies = {"post": KitIn}
    responses = {"get": list_of(KitRowOut), "post": {201: KitOut}}
    permissions = {"get": shop_access.EVERYONE, "post": shop_access.COUNTER}
    query_parameters = {
        "q": "part of the title or the number",
        "vehicle": an_id("does it fit this one?"),
        "archived": archived_only("kits"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the kits."""
        attributes = self._attributes(request)
        archived = wants_archived(request)
        rows = access.kits_with_newest_revision(self.actor).filter(archived=archived)
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
        return _read(self.actor, revision.kit_id, 201)

    def _attributes(self, request: Request) -> dict[str, str] | None:
        vehicle = request.query_params.get("vehicle")
        if vehicle is None:
            return None
        attributes: dict[str, str] = shop_access.vehicle(self.actor, parse_uuid(vehicle, "/vehicle")).attributes
        return attributes


class Kit(Endpoint):
    """One kit with the contents list of its newest version; its selling price only for those who quote."""

    request_bodies = {"put": KitChange, "patch": KitArchived}
    responses = {"get": KitOut, "put": KitOut, "patch": KitOut}
    permissions = {"get": shop_access.EVERYONE, "put": shop_access.COUNTER, "patch": shop_access.OFFICE}
    versioned = frozenset({"put", "patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one kit."""
        return _read(self.actor, id)

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a kit; another price, other hours, lead days or labour make its next version."""
        kit, seen = access.kit(self.actor, id), self.expected_version(request)
        with refusals_worded():
            kit_list.change_kit(actor=self.actor, kit=kit, seen=seen, values=self._values(self.body(request)))
        return _read(self.actor, id)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Archive a kit, or bring it back."""
        kit, seen = access.kit(self.actor, id), self.expected_version(request)
        kit_list.archive_kit(actor=self.actor, kit=kit, seen=seen, archived=self.body(request)["archived"])
        return _read(self.actor, id)

    def _values(self, body: dict[str, Any]) -> dict[str, Any]:
        supplier = body["supplier"] and access.supplier(self.actor, body["supplier"])
        if body.get("labour"):
            body["labour"] = shop_access.template(self.actor, body["labour"])
        if body["price"] is not None:
            check_price(body["price"], "/price", self.actor.shop.exponent)
        if body["hours"] is not None:
            check_hours(body["hours"], "/hours")
        return body | {"supplier": supplier, "fits": typed_conditions(body["fits"])}


class KitChanges(Endpoint):
    """The differences of a version of a kit from the one before it."""

    responses = {"get": KitVersionOut}
    permissions = {"get": shop_access.STORES}
    query_parameters = {"version": whole("the number of the version; the newest unless it is named", 1, MOST_ASKED)}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read how a version differs from the one before it."""
        number = request.query_params.get("version")
        kit = access.kit(self.actor, id)
        revision = access.kit_revision(kit, None if number is None else parse_whole(number, "/version", 1))
        if revision is None:
            raise Http404
        return Response(version_answer(kit, revision, priced=self.actor.role in shop_access.COUNTER))


class KitDuplicates(Endpoint):
    """New kits with the contents of another one."""

    request_bodies = {"post": KitDuplicate}
    responses = {"post": {201: KitOut}}
    permissions = {"post": shop_access.COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a kit with the contents, the work and the figures of this one."""
        kit = access.kit(self.actor, id)
        revision = kit_list.duplicate_kit(actor=self.actor, kit=kit, **self.body(request))
        return _read(self.actor, revision.kit_id, 201)


def for_models(models: Iterable[str]) -> tuple[dict[str, Any], ...]:
    """The condition that a vehicle is one of these models; empty without models."""
    named = list(dict.fromkeys(models))
    return ({"attribute": MODEL, "in": named},) if named else ()


def newest(kit: KitRow) -> KitRevision | None:
    """The newest revision of a kit from access.kits_with_newest_revision."""
    revisions: list[KitRevision] = kit.newest  # type: ignore[attr-defined]
    return revisions[0] if revisions else None


def _read(actor: shop_access.Actor, id: UUID, status: int = 200) -> Response:
    kit = access.kit_with_newest_revision(actor, id)
    return versioned(_answer(actor, kit), kit.version, status)


def _answer(actor: shop_access.Actor, kit: KitRow) -> KitOut:
    revision = newest(kit)
    return kit_answer(
        kit_row(kit, revision, None),
        kit,
        revision,
        version_contents(kit, revision),
        priced=actor.role in shop_access.COUNTER,
        files=versions_with_files(kit) if actor.role in shop_access.STORES else [],
    )
