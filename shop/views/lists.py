from django.http import HttpResponse
from rest_framework.exceptions import PermissionDenied
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.access import Actor
from shop.answers.headings import HeadingsOut
from shop.api.endpoint import Endpoint
from shop.api.list_files import CSV, WORKBOOK_UNLESS_CSV, attachment, list_file, wants_csv
from shop.api.query_parameters import one_of
from shop.api.renderers import CSVRenderer, XLSXRenderer
from shop.documents.list_registry import out_lists
from shop.documents.lists import csv_list, example_file, workbook_list
from shop.errors import field_error
from shop.presenters.headings import file_headings
from shop.tables.engine import FileKind
from shop.tables.registry import kinds
from shop.views.imports import allowed

ALLOWED = dict.fromkeys(("labour", "rules", "suppliers"), access.OFFICE)  # what decides prices and dates
XLSX = XLSXRenderer.media_type
LISTS = sorted({*kinds(), *out_lists()})


class Lists(Endpoint):
    """A whole list of the shop as a file. A list of a kind that can be imported can be changed and imported again; its
    tables stand one below the other in a CSV file.
    """

    responses = {"get": bytes}
    permissions = {"get": access.COUNTER}
    query_parameters = {
        "kind": one_of("the list: one to read, or by its kind of file one to import again", LISTS),
        "format": WORKBOOK_UNLESS_CSV,
    }
    renderer_classes = [XLSXRenderer, CSVRenderer]

    def get(self, request: Request, slug: str) -> HttpResponse:
        """Read a list as a file."""
        if out_list := out_lists().get(request.query_params.get("kind", "")):
            if self.actor.role not in out_list.roles:
                raise PermissionDenied
            return list_file(request, out_list.name, out_list.name, out_list.headings(), out_list.rows(self.actor))
        kind = _kind(self.actor, request)
        if kind.stored is None:
            raise field_error("/kind", "list.not_kept")
        rows = kind.stored(self.actor)
        if wants_csv(request):
            return attachment(csv_list(kind, rows).encode(), CSV, f"{kind.name}.csv")
        return attachment(workbook_list(kind, rows), XLSX, f"{kind.name}.xlsx")


class Examples(Endpoint):
    """An example of a file that can be imported, with every heading explained."""

    responses = {"get": bytes}
    permissions = {"get": access.STORES}
    query_parameters = {"kind": one_of("the kind of file", kinds())}
    renderer_classes = [XLSXRenderer]

    def get(self, request: Request, slug: str) -> HttpResponse:
        """Read an example file."""
        kind = _kind(self.actor, request)
        if kind.example is None:
            raise field_error("/kind", "list.no_example")
        return attachment(example_file(kind), XLSX, f"example-{kind.name}.xlsx")


class Headings(Endpoint):
    """Every heading that an imported file may have, by kind of file and sheet."""

    responses = {"get": HeadingsOut}
    permissions = {"get": access.STORES}

    def get(self, request: Request, slug: str) -> Response:
        """List the headings of the kinds of file that this person may import."""
        importable = [kind for name, kind in kinds().items() if self.actor.role in allowed(name)]
        return Response(HeadingsOut(kinds=[file_headings(kind) for kind in importable]))


def _kind(actor: Actor, request: Request) -> FileKind:
    kind = kinds().get(request.query_params.get("kind", ""))
    if kind is None:
        raise field_error("/kind", "import.kind", known=", ".join(sorted(kinds())))
    if actor.role not in ALLOWED.get(kind.name, access.STORES):
        raise PermissionDenied
    return kind
