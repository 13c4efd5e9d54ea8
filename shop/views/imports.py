from typing import Any
from uuid import UUID

from django.http import HttpResponse
from django.utils.http import content_disposition_header
from rest_framework.exceptions import PermissionDenied
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.access import Actor
from shop.answers.imports import ImportLinesOut, ImportOut, ImportRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.api.params import parse_whole
from shop.api.query_parameters import MOST_ASKED, one_of, whole
from shop.api.renderers import BytesRenderer
from shop.errors import RequestError, field_error
from shop.models import FileRead
from shop.presenters.imports import import_answer, import_lines, import_row
from shop.serializers.imports import ImportIn, StepIn, TakeInIn
from shop.services import file_work, imports
from shop.services.imports import ImportOutcome
from shop.tables import several
from shop.tables.engine import FileKind, ParsedFile
from shop.tables.reading import MAX_BYTES
from shop.tables.registry import kinds

# Rules and labour set prices for everybody; files of kits hold costs.
ALLOWED = {
    "rules": access.OFFICE,
    "labour": access.OFFICE,
    "customers": access.COUNTER,
    "vehicles": access.COUNTER,
    "suppliers": access.OFFICE,
    "kits": access.COUNTER,
}


def allowed(kind: str) -> frozenset[str]:
    return ALLOWED.get(kind, access.STORES)


class Imports(Endpoint):
    """Uploaded files, newest first. A POST reads one and reports everything about it; nothing is imported yet."""

    request_bodies = {"post": ImportIn}
    responses = {"get": list_of(ImportRowOut), "post": {201: ImportOut, 202: ImportOut}}
    permissions = {"get": access.STORES, "post": access.STORES}
    query_parameters = {"kind": one_of("only files of this kind", kinds())}
    paginated = True
    parser_classes = [MultiPartParser]
    body_limit = MAX_BYTES + 64 * 1024  # the file, and the form around it

    def get(self, request: Request, slug: str) -> Response:
        """List the uploaded files."""
        allowed_kinds = [name for name in kinds() if self.actor.role in allowed(name)]
        rows = (
            access.files_read(self.actor)
            .filter(kind__in=allowed_kinds)
            .defer("body", "lines")
            .select_related("author__user")
            .prefetch_related("tasks")
        )
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
        self.name, self.bytes = file.name, file.read()
        file.seek(0)
        files = request.FILES.getlist("file")
        if len(files) > 1:  # carton A.csv and carton B.csv: one list
            self.name, self.bytes = several.together((part.name, _whole(part)) for part in files)
            if len(self.bytes) > MAX_BYTES or len(files) > several.MOST:
                raise RequestError(413, "too-large")
        if file_work.is_large(self.bytes):
            return
        self.reading: ParsedFile = imports.understand(
            actor=self.actor,
            kind=self.kind,
            file_name=self.name,
            body=self.bytes,
            supplier=self.upload["supplier"],
            mapping=mapping,
        )

    def post(self, request: Request, slug: str) -> Response:
        """Read a file, without importing it. A large one is read after the answer."""
        if file_work.is_large(self.bytes):
            row = file_work.keep_unread(
                actor=self.actor,
                kind=self.kind,
                file_name=self.name,
                body=self.bytes,
                supplier=self.upload["supplier"],
                mapping=self.upload["mapping"],
            )
            return Response(import_answer(row), status=202)
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
        tasks = access.file_tasks(self.actor, id)
        return Response(import_answer(_file(self.actor, id), tasks))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Remove a file that nobody will import."""
        imports.remove(actor=self.actor, file=_file(self.actor, id))
        return Response(status=204)


class ImportOriginal(Endpoint):
    """The file of an import, byte for byte as it was sent. 410 once the rules of the shop keep it no longer."""

    responses = {"get": bytes}
    permissions = {"get": access.STORES}
    renderer_classes = [BytesRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read the file as it was sent."""
        file = _file(self.actor, id)
        if file.dropped_at is not None:
            raise RequestError(410, "file-not-kept")
        answer = HttpResponse(bytes(file.body), content_type=BytesRenderer.media_type)
        answer["Content-Disposition"] = content_disposition_header(True, file.file_name) or "attachment"
        return answer


class TakeIn(Endpoint):
    """Import a file completely. Refused while one thing in it must be fixed."""

    request_bodies = {"post": TakeInIn}
    responses = {"post": {200: ImportOut, 202: ImportOut}}
    permissions = {"post": access.STORES}

    def prepare(self, request: Request, **kw: Any) -> None:
        self.body(request)
        self.file = _file(self.actor, kw["id"])
        if not file_work.is_large(self.file.body):
            self.reading = imports.read_again(actor=self.actor, file=self.file)

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Import a file completely. A large one is imported after the answer."""
        if file_work.is_large(self.file.body):
            return Response(import_answer(file_work.take_in_later(actor=self.actor, file=self.file)), status=202)
        return Response(import_answer(imports.take_in(actor=self.actor, file=self.file, reading=self.reading)))


class ImportLines(Endpoint):
    """The list of a file as it will become."""

    responses = {"get": ImportLinesOut}
    permissions = {"get": access.STORES}
    query_parameters = {"place": whole("only the lines of this carton or bag, by its position", 0, MOST_ASKED)}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the lines of a carton or bag as they will become."""
        place = request.query_params.get("place")
        number = parse_whole(place, "/place", 0) if place is not None else None
        return Response(import_lines(_file(self.actor, id), number))


class Steps(Endpoint):
    """The decisions of a person about a file that was read. Each reads the file again; none imports anything."""

    request_bodies = {"post": StepIn}
    responses = {"post": {200: ImportOut, 202: ImportOut}}
    permissions = {"post": access.STORES}

    def prepare(self, request: Request, **kw: Any) -> None:
        self.file = _file(self.actor, kw["id"])
        step = imports.for_all_with_its_problem(self.file, self.body(request))
        kind = kinds()[self.file.kind]
        if step["do"] == "field" and step["field"] not in kind.typed:
            raise field_error("/field", "import.step_field", known=", ".join(kind.typed) or "-")
        names = {field.name for table in kind.tables for field in table.fields}
        if step["do"] == "value" and step["field"] not in names:
            raise field_error("/field", "import.step_field", known=", ".join(sorted(names)))
        if step["do"] in ("value", "leave_out", "place") and not step["rows"]:
            raise field_error("/rows", "import.step_rows")
        self.steps = imports.with_step(self.file, step)
        if not file_work.is_large(self.file.body):
            self.outcome = _outcome(self.actor, self.file, self.steps)

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Correct a cell, leave rows out, put rows into a bag, answer a question, or type a fact about the file."""
        if file_work.is_large(self.file.body):
            file = file_work.repair_later(actor=self.actor, file=self.file, steps=self.steps)
            return Response(import_answer(file), status=202)
        file = imports.repair(actor=self.actor, file=self.file, steps=self.steps, outcome=self.outcome)
        return Response(import_answer(file))


class Step(Endpoint):
    """One decision about a file. DELETE undoes it."""

    responses = {"delete": {200: ImportOut, 202: ImportOut}}
    permissions = {"delete": access.STORES}

    def delete(self, request: Request, slug: str, id: UUID, step: UUID) -> Response:
        """Undo a decision about a file."""
        file = _file(self.actor, id)
        steps = imports.without_step(file, step)
        if file_work.is_large(file.body):
            return Response(import_answer(file_work.repair_later(actor=self.actor, file=file, steps=steps)), status=202)
        outcome = _outcome(self.actor, file, steps)
        return Response(import_answer(imports.repair(actor=self.actor, file=file, steps=steps, outcome=outcome)))


def _whole(file: Any) -> bytes:
    body = bytes(file.read())
    file.seek(0)
    return body


def _kind(actor: Actor, name: str) -> FileKind:
    kind = kinds().get(name)
    if kind is None:
        raise field_error("/kind", "import.kind", known=", ".join(sorted(kinds())))
    if actor.role not in allowed(name):
        raise PermissionDenied
    return kind


def _outcome(actor: Actor, file: FileRead, steps: list[dict[str, Any]]) -> ImportOutcome:
    reading = imports.read_with(actor=actor, file=file, steps=steps)
    return imports.outcome_of(actor=actor, file=file, reading=reading)


def _file(actor: Actor, id: UUID) -> FileRead:
    file = access.file_read(actor, id)
    if actor.role not in allowed(file.kind):
        raise PermissionDenied
    return file
