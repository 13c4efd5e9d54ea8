from uuid import UUID

from django.db.models import Q
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.consumables import ConsumableOut, ConsumableRowOut, PackOffersOut
from kitting.presenters.consumables import consumable_answer, consumable_row, offers_answer
from kitting.serializers.consumables import ConsumableArchived, ConsumableIn, ConsumableRenamed, PackChange, PackIn
from kitting.services import consumables
from shop.access import COUNTER, OFFICE
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.query_parameters import archived_only, wants_archived
from shop.presenters.entries import refusals_worded
from shop.queries.search import typed_pieces


class Consumables(Endpoint):
    """The shop's consumables by family and specification."""

    request_bodies = {"post": ConsumableIn}
    responses = {"get": list_of(ConsumableRowOut), "post": {201: ConsumableOut}}
    permissions = {"get": COUNTER, "post": OFFICE}
    query_parameters = {
        "q": "part of a family, a specification, or a number or title of a pack",
        "archived": archived_only("consumables"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the consumables by family and specification."""
        rows = access.consumables(self.actor).filter(archived=wants_archived(request))
        for word in typed_pieces(request.query_params.get("q", "")):
            packs = access.packs(self.actor).filter(Q(number__icontains=word) | Q(title__icontains=word))
            own = Q(family__icontains=word) | Q(specification__icontains=word)
            rows = rows.filter(own | Q(pk__in=packs.values("consumable")))
        return self.page(request, rows, ("family", "specification"), consumable_row)

    def post(self, request: Request, slug: str) -> Response:
        """Add a consumable with its first pack."""
        with refusals_worded():
            row = consumables.add_consumable(actor=self.actor, texts=self.body(request))
        return versioned(consumable_answer(row), row.version, 201)


class Consumable(Endpoint):
    """One consumable with its packs. A change reaches drafts at once; what was sent or sold holds copies of its own."""

    request_bodies = {"put": ConsumableRenamed, "patch": ConsumableArchived}
    responses = {"get": ConsumableOut, "put": ConsumableOut, "patch": ConsumableOut}
    permissions = {"get": COUNTER, "put": OFFICE, "patch": OFFICE}
    versioned = frozenset({"put", "patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one consumable."""
        row = access.consumable(self.actor, id)
        return versioned(consumable_answer(row), row.version)

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a consumable."""
        row, seen, body = access.consumable(self.actor, id), self.expected_version(request), self.body(request)
        move_rules = body.pop("move_rules")
        with refusals_worded():
            row = consumables.change_consumable(
                actor=self.actor, consumable=row, seen=seen, texts=body, move_rules=move_rules
            )
        return versioned(consumable_answer(row), row.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Archive a consumable, or bring it back."""
        row, seen = access.consumable(self.actor, id), self.expected_version(request)
        row = consumables.archive_consumable(
            actor=self.actor, consumable=row, seen=seen, archived=self.body(request)["archived"]
        )
        return versioned(consumable_answer(row), row.version)


class ConsumableOffers(Endpoint):
    """The buying prices of the packs of a consumable."""

    responses = {"get": PackOffersOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the buying prices of the packs, as of today."""
        row = access.consumable(self.actor, id)
        return versioned(offers_answer(row, self.actor, timezone.now()), row.version)


class Packs(Endpoint):
    """The packs of a consumable."""

    request_bodies = {"post": PackIn}
    responses = {"post": {201: ConsumableOut}}
    permissions = {"post": OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a pack."""
        row = access.consumable(self.actor, id)
        with refusals_worded():
            row = consumables.add_pack(actor=self.actor, consumable=row, texts=self.body(request))
        return versioned(consumable_answer(row), row.version, 201)


class Pack(Endpoint):
    """One pack of a consumable. Its version is that of the consumable."""

    request_bodies = {"put": PackChange, "patch": ConsumableArchived}
    responses = {"put": ConsumableOut, "patch": ConsumableOut}
    permissions = {"put": OFFICE, "patch": OFFICE}
    versioned = frozenset({"put", "patch"})

    def put(self, request: Request, slug: str, id: UUID, pack: UUID) -> Response:
        """Change a pack."""
        row, seen = access.consumable(self.actor, id), self.expected_version(request)
        with refusals_worded():
            row = consumables.change_pack(
                actor=self.actor,
                consumable=row,
                pack=access.pack(self.actor, row, pack),
                seen=seen,
                texts=self.body(request),
            )
        return versioned(consumable_answer(row), row.version)

    def patch(self, request: Request, slug: str, id: UUID, pack: UUID) -> Response:
        """Archive a pack, or bring it back."""
        row, seen = access.consumable(self.actor, id), self.expected_version(request)
        row = consumables.archive_pack(
            actor=self.actor,
            consumable=row,
            pack=access.pack(self.actor, row, pack),
            seen=seen,
            archived=self.body(request)["archived"],
        )
        return versioned(consumable_answer(row), row.version)
