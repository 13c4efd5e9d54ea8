from typing import Any
from uuid import UUID

from rest_framework.exceptions import PermissionDenied
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.access import Actor
from shop.answers.imports import ImportOut, ImportRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.api.query_parameters import one_of
from shop.errors import RequestError, field_error
from shop.models import FileRead
from shop.presenters.imports import import_answer, import_row
from shop.serializers.imports import ImportIn, TakeInIn
from shop.services import imports
from shop.tables.engine import FileKind, ParsedFile
from shop.tables.reading import MAX_BYTES
from shop.tables.registry import kinds

# Rules and labour set prices for everybody; files of kits hold costs.
ALLOWED = {
    "rules": access.OFFICE,
    "labour": access.OFFICE,
    "customers": access.COUNTER,
    "vehicles": access.COUNTER,
}


def allowed(kind: str) -> frozenset[str]:
    return ALLOWED.get(kind, access.STORES)


class Imports(Endpoint):
    """Uploaded files, newest first. A POST reads one and reports everything about it; nothing is imported yet."""

    request_bodies = {"post": ImportIn}
    responses = {"get": list_of(ImportRowOut), "post": {201: ImportOut}}
    permissions = {"get": access.STORES, "post": access.STORES}
    query_parameters = {"kind": one_of("only files of this kind", kinds())}
    paginated = True
    parser_classes = [MultiPartParser]
    body_limit = MAX_BYTES + 64 * 1024  # the file, and the form around it

    def get(self, request: Request, slug: str) -> Response:
        """List the uploaded files."""
        allowed_kinds = [name for name in kinds() if self.actor.role in allowed(name)]
        rows = access.files_read(self.actor).filter(kind__in=allowed_kinds).defer("body").select_related("author__user")
        if (kind := request.query_params.get("kind")) is not None:
            if kind not in kinds():
                raise field_error("/kind", "import.kind", known=", ".join(sorted(kinds())))
            rows = rows.filter(kind=kind)
        return self.page(request, rows, ("-read_at", "id"), import_row)

    def prepare(self, request: Request, **kw: Any) -> None:
        self.upload = self.body(request)
        self.kind = _kind(self.actor, self.upload["kind"])
        mapping = self.upload["mapping"]
        texts = isinstance(mapping, dict) and all(isinstance(heading, str) for heading in mapping.values())
        if not texts or len(mapping) > 60:
            raise field_error("/mapping", "import.mapping")
        file = self.upload["file"]
        if file.size > MAX_BYTES:
            raise RequestError(413, "too-large")
        self.bytes = file.read()
        file.seek(0)
        self.reading: ParsedFile = imports.understand(
            actor=self.actor,
            kind=self.kind,
            file_name=file.name,
            body=self.bytes,
            supplier=self.upload["supplier"],
            mapping=mapping,
        )

    def post(self, request: Request, slug: str) -> Response:
        """Read a file, without importing it."""
        row = imports.keep(
            actor=self.actor,
            kind=self.kind,
            reading=self.reading,
            body=self.bytes,
            supplier=self.upload["supplier"],
            mapping=self.upload["mapping"],
        )
        return Response(import_answer(row), status=201)


class Import(Endpoint):
    """One file as read. DELETE removes one that nobody will import."""

    responses = {"get": ImportOut, "delete": {204: None}}
    permissions = {"get": access.STORES, "delete": access.STORES}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what a file would become."""
        return Response(import_answer(_file(self.actor, id)))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Remove a file that nobody will import."""
        imports.remove(actor=self.actor, file=_file(self.actor, id))
        return Response(status=204)


class TakeIn(Endpoint):
    """Import a file completely. Refused while one thing in it must be fixed."""

    request_bodies = {"post": TakeInIn}
    responses = {"post": ImportOut}
    permissions = {"post": access.STORES}

    def prepare(self, request: Request, **kw: Any) -> None:
        self.body(request)
        self.file = _file(self.actor, kw["id"])
        self.reading = imports.read_again(actor=self.actor, file=self.file)

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Import a file completely."""
        return Response(import_answer(imports.take_in(actor=self.actor, file=self.file, reading=self.reading)))


def _kind(actor: Actor, name: str) -> FileKind:
    kind = kinds().get(name)
    if kind is None:
        raise field_error("/kind", "import.kind", known=", ".join(sorted(kinds())))
    if actor.role not in allowed(name):
        raise PermissionDenied
    return kind


def _file(actor: Actor, id: UUID) -> FileRead:
    file = access.file_read(actor, id)
    if actor.role not in allowed(file.kind):
        raise PermissionDenied
    return file
