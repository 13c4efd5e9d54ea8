from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.suppliers import SupplierOut, SupplierRowOut
from kitting.presenters.suppliers import supplier_answer, supplier_row
from kitting.serializers.suppliers import SupplierChange, SupplierIn
from kitting.services import suppliers
from shop.access import OFFICE, STORES
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.query_parameters import archived_only, wants_archived
from shop.queries.search import typed_pieces


class Suppliers(Endpoint):
    """The shop's suppliers by name. A file with a new name adds one too."""

    request_bodies = {"post": SupplierIn}
    responses = {"get": list_of(SupplierRowOut), "post": {201: SupplierOut}}
    permissions = {"get": STORES, "post": OFFICE}
    query_parameters = {
        "q": "part of a name",
        "archived": archived_only("suppliers"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the suppliers by name."""
        rows = access.suppliers(self.actor).filter(archived=wants_archived(request))
        for word in typed_pieces(request.query_params.get("q", "")):
            rows = rows.filter(name__icontains=word)
        return self.page(request, rows, ("name",), supplier_row)

    def post(self, request: Request, slug: str) -> Response:
        """Add a supplier."""
        row = suppliers.add_supplier(actor=self.actor, facts=self.body(request))
        return versioned(supplier_answer(row), row.version, 201)


class Supplier(Endpoint):
    """One supplier, with all that is remembered about its files."""

    request_bodies = {"patch": SupplierChange}
    responses = {"get": SupplierOut, "patch": SupplierOut}
    permissions = {"get": STORES, "patch": OFFICE}
    versioned = frozenset({"patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one supplier."""
        row = access.supplier(self.actor, id)
        return versioned(supplier_answer(row), row.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a supplier, archive it, or bring it back."""
        row, seen = access.supplier(self.actor, id), self.expected_version(request)
        changed = suppliers.change_supplier(actor=self.actor, supplier=row, seen=seen, changes=self.body(request))
        return versioned(supplier_answer(changed), changed.version)


class SupplierMemory(Endpoint):
    """One thing that is remembered about a supplier's files."""

    responses = {"delete": SupplierOut}
    permissions = {"delete": OFFICE}

    def delete(self, request: Request, slug: str, id: UUID, memory: str) -> Response:
        """Forget it: the supplier's next file is asked again."""
        row = suppliers.forget(actor=self.actor, supplier=access.supplier(self.actor, id), key=memory)
        return versioned(supplier_answer(row), row.version)
