from uuid import UUID

from django.db.models import Q
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.operations import OperationOut, OperationRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.query_parameters import archived_only, wants_archived
from shop.presenters.entries import refusals_worded
from shop.presenters.operations import operation_answer, operation_row
from shop.queries.search import typed_pieces
from shop.serializers.operations import OperationArchived, OperationChange, OperationIn
from shop.services import operations


class Operations(Endpoint):
    """The shop's operations by code."""

    request_bodies = {"post": OperationIn}
    responses = {"get": list_of(OperationRowOut), "post": {201: OperationOut}}
    permissions = {"get": access.COUNTER, "post": access.OFFICE}
    query_parameters = {
        "q": "part of a code, a title or a skill",
        "archived": archived_only("operations"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the operations by code."""
        rows = access.operations(self.actor).filter(archived=wants_archived(request))
        for word in typed_pieces(request.query_params.get("q", "")):
            rows = rows.filter(Q(code__icontains=word) | Q(title__icontains=word) | Q(skill__icontains=word))
        return self.page(request, rows, ("code",), operation_row)

    def post(self, request: Request, slug: str) -> Response:
        """Add an operation."""
        with refusals_worded():
            row = operations.add_operation(actor=self.actor, texts=self.body(request))
        return versioned(operation_answer(row, self.actor), row.version, 201)


class Operation(Endpoint):
    """One operation. A change reaches drafts at once; jobs and sent quotes hold copies of their own."""

    request_bodies = {"put": OperationChange, "patch": OperationArchived}
    responses = {"get": OperationOut, "put": OperationOut, "patch": OperationOut}
    permissions = {"get": access.COUNTER, "put": access.OFFICE, "patch": access.OFFICE}
    versioned = frozenset({"put", "patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one operation."""
        row = access.operation(self.actor, id)
        return versioned(operation_answer(row, self.actor), row.version)

    def put(self, request: Request, slug: str, id: UUID) -> Response:
        """Change an operation."""
        row, seen = access.operation(self.actor, id), self.expected_version(request)
        with refusals_worded():
            changed = operations.change_operation(actor=self.actor, operation=row, seen=seen, texts=self.body(request))
        return versioned(operation_answer(changed, self.actor), changed.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Archive an operation, or bring it back."""
        row, seen = access.operation(self.actor, id), self.expected_version(request)
        changed = operations.archive_operation(
            actor=self.actor, operation=row, seen=seen, archived=self.body(request)["archived"]
        )
        return versioned(operation_answer(changed, self.actor), changed.version)
