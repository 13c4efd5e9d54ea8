from datetime import date
from typing import Any
from uuid import UUID

from django.http import HttpResponse
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes.answers.account import AccountOut
from quotes.documents import quote_pdf
from quotes.documents.month import month_headings, month_rows, with_figures
from quotes.presenters.account import account_answer
from quotes.queries.account import job_account
from quotes.queries.closing import closing_of
from quotes.serializers import account as requests
from quotes.services.closing import close_job, prepare_closing
from shop.api.endpoint import Endpoint
from shop.api.list_files import CSV_UNLESS_WORKBOOK, list_file, wants_csv
from shop.api.query_parameters import text_like
from shop.api.renderers import CSVRenderer, PDFRenderer, XLSXRenderer
from shop.errors import RequestError, field_error


class ClosingAccounts(Endpoint):
    """Close a job with its account."""

    request_bodies = {"post": requests.ClosingIn}
    responses = {"post": {201: AccountOut}}
    permissions = {"post": shop.access.COUNTER}

    def prepare(self, request: Request, *args: Any, **kw: Any) -> None:
        job, due = shop.access.job(self.actor, kw["id"]), self.body(request)["due"]
        self.ready = prepare_closing(actor=self.actor, job=job, due=due, now=timezone.now())

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Close a job with its account."""
        job, due = shop.access.job(self.actor, id), self.body(request)["due"]
        close_job(actor=self.actor, job=job, prepared=self.ready, due=due)
        return Response(account_answer(job_account(job)), status=201)


class ClosingPaper(Endpoint):
    """The PDF of a closing account, byte for byte as it was frozen. It is no tax invoice."""

    responses = {"get": bytes}
    permissions = {"get": shop.access.COUNTER}
    renderer_classes = [PDFRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read the paper of a closing account."""
        closing = closing_of(shop.access.job(self.actor, id))
        if closing is None:
            raise RequestError(409, "not-closed")
        answer = HttpResponse(quote_pdf.kept_paper(closing.paper.sha256), content_type="application/pdf")
        answer["Content-Disposition"] = f'inline; filename="{closing.job}-account.pdf"'
        answer["Cache-Control"] = "no-store"
        return answer


class Month(Endpoint):
    """The payments and closing accounts of a month as one file."""

    responses = {"get": bytes}
    permissions = {"get": shop.access.COUNTER}
    query_parameters = {
        "month": text_like("the month, as 2026-11", "^[0-9]{4}-(0[1-9]|1[0-2])$"),
        "format": CSV_UNLESS_WORKBOOK,
    }
    renderer_classes = [CSVRenderer, XLSXRenderer]

    def get(self, request: Request, slug: str) -> HttpResponse:
        """Read a month's payments and closing accounts."""
        month = request.query_params.get("month", "")
        try:
            first = date.fromisoformat(f"{month}-01")
        except ValueError:
            raise field_error("/month", "month") from None
        rows = month_rows(self.actor.shop, first)
        lines = rows if wants_csv(request) else with_figures(rows)
        return list_file(request, f"money-{first:%Y-%m}", f"{first:%Y-%m}", month_headings(), lines)
