from uuid import UUID

from django.http import Http404, HttpResponse
from rest_framework.request import Request

from kitting import access
from kitting.documents.kit_file import kit_csv, kit_workbook
from shop.access import COUNTER
from shop.api.endpoint import Endpoint
from shop.api.list_files import CSV, WORKBOOK_UNLESS_CSV, attachment, wants_csv
from shop.api.params import parse_whole
from shop.api.query_parameters import MOST_ASKED, whole
from shop.api.renderers import CSVRenderer, XLSXRenderer


class KitContentsFile(Endpoint):
    """One version of a kit as the file that can be changed and imported as its next one."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    query_parameters = {
        "version": whole("the number of the version; the newest unless it is named", 1, MOST_ASKED),
        "format": WORKBOOK_UNLESS_CSV,
    }
    renderer_classes = [XLSXRenderer, CSVRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read a version of a kit as a file."""
        number = request.query_params.get("version")
        kit = access.kit(self.actor, id)
        revision = access.kit_revision(kit, None if number is None else parse_whole(number, "/version", 1))
        if revision is None:
            raise Http404
        name = f"{kit.code}-{revision.number}"
        if wants_csv(request):
            return attachment(kit_csv(revision).encode(), CSV, f"{name}.csv")
        return attachment(kit_workbook(revision), XLSXRenderer.media_type, f"{name}.xlsx")
