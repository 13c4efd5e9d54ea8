"""Answers with a list as a file: CSV or a workbook, as the request asks."""

from collections.abc import Iterable, Sequence

from django.http import HttpResponse
from django.utils.http import content_disposition_header
from rest_framework.request import Request

from shop.api.query_parameters import one_of
from shop.api.renderers import CSVRenderer, XLSXRenderer
from shop.tables.csv_text import csv_text
from shop.tables.writing import Content, sheet, written

CSV = "text/csv; charset=utf-8"
WORKBOOK_UNLESS_CSV = one_of("a workbook unless CSV is asked for", ("csv", "xlsx"))
CSV_UNLESS_WORKBOOK = one_of("CSV unless a workbook is asked for", ("csv", "xlsx"))


def wants_csv(request: Request) -> bool:
    return isinstance(request.accepted_renderer, CSVRenderer)


def list_file(
    request: Request, name: str, title: str, headings: Sequence[str], lines: Iterable[Sequence[Content]]
) -> HttpResponse:
    """The lines below their headings. `name` is the file's without its ending, `title` that of the workbook's sheet."""
    if wants_csv(request):
        text = csv_text([headings, *([written(cell) for cell in line] for line in lines)])
        return attachment(text.encode(), CSV, f"{name}.csv")
    return attachment(sheet(title, headings, lines), XLSXRenderer.media_type, f"{name}.xlsx")


def attachment(body: bytes, media_type: str, name: str) -> HttpResponse:
    answer = HttpResponse(body, content_type=media_type)
    answer["Content-Disposition"] = content_disposition_header(True, name) or "attachment"
    answer["Cache-Control"] = "no-store"
    return answer
