from uuid import UUID

from django.http import Http404, HttpResponse
from django.utils.http import content_disposition_header
from rest_framework.request import Request

from kitting import access
from kitting.documents.kit_file import kit_csv, kit_workbook
from shop.access import COUNTER
from shop.api.endpoint import Endpoint
from shop.api.params import parse_whole
from shop.api.query_parameters import MOST_ASKED, one_of, whole
from shop.api.renderers import CSVRenderer, XLSXRenderer


class KitContentsFile(Endpoint):
    """One version of a kit as the file that can be changed and imported as its next one."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    query_parameters = {
        "version": whole("the number of the version; the newest unless it is named", 1, MOST_ASKED),
        "format": one_of("a workbook unless CSV is asked for", ("csv", "xlsx")),
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
        if isinstance(request.accepted_renderer, CSVRenderer):
            return _file(kit_csv(revision).encode(), "text/csv; charset=utf-8", f"{name}.csv")
        return _file(kit_workbook(revision), XLSXRenderer.media_type, f"{name}.xlsx")


def _file(body: bytes, media_type: str, name: str) -> HttpResponse:
    answer = HttpResponse(body, content_type=media_type)
    answer["Content-Disposition"] = content_disposition_header(True, name) or "attachment"
    answer["Cache-Control"] = "no-store"
    return answer
