from typing import Any, ClassVar
from uuid import UUID

from django.http import HttpResponse
from django.utils import timezone
from drf_spectacular.types import OpenApiTypes
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.orders import OrdersOut
from kitting.answers.pull_lists import PullListOut, PullListRowOut
from kitting.answers.reports import ReportOut
from kitting.documents.orders_file import orders_headings, orders_lines
from kitting.documents.pull_list import EDITIONS, pull_list_paper
from kitting.documents.pull_list_file import pull_list_headings, pull_list_lines
from kitting.models import PullList as PullListRow
from kitting.presenters.orders import orders_answer
from kitting.presenters.pull_lists import list_answer, list_rows
from kitting.presenters.reports import report_answer
from kitting.serializers.pull_lists import CloseIn
from kitting.services import pull_lists
from shop import access as shop_access
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.list_files import WORKBOOK_UNLESS_CSV, list_file
from shop.api.params import parse_uuid
from shop.api.query_parameters import Pages, an_id, one_of
from shop.api.renderers import CSVRenderer, XLSXRenderer
from shop.errors import field_error

REOPENS = frozenset({shop_access.PARTS, shop_access.MANAGER})


class PullLists(Endpoint):
    """The shop's pull lists, newest first; those of open jobs in the order of the jobs' ids."""

    responses = {"get": list_of(PullListRowOut)}
    permissions = {"get": shop_access.EVERYONE}
    query_parameters = {
        "state": one_of("open or closed", PullListRow.State.values),
        "job": an_id("only this job's"),
        "jobs": one_of("open: only those of the newest open jobs, of as many jobs as `limit` says", ["open"]),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the pull lists."""
        rows, ordering = self._rows(request)
        if (state := request.query_params.get("state")) is not None:
            if state not in PullListRow.State.values:
                raise field_error("/state", "list_state")
            rows = rows.filter(state=state)
        if (job := request.query_params.get("job")) is not None:
            rows = rows.filter(job=shop_access.job(self.actor, parse_uuid(job, "/job")))
        answer = self.page(request, rows, ordering, lambda row: row)
        answer.data["items"] = list_rows(self.actor, answer.data["items"])
        return answer

    def _rows(self, request: Request) -> tuple[Any, tuple[str, ...]]:
        """The lists and their order. Lists of some jobs are ordered by job: by age, SQLite would read all lists."""
        jobs = request.query_params.get("jobs")
        if jobs is None:
            return access.pull_lists(self.actor), ("-opened_at", "-id")
        if jobs != "open":
            raise field_error("/jobs", "only_open")
        most = Pages().get_page_size(request) or Pages.page_size
        return access.pull_lists_of_open_jobs(self.actor, most), ("-job_id", "-id")


class PullList(Endpoint):
    """One pull list with its lines in order."""

    responses = {"get": PullListOut}
    permissions = {"get": shop_access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one pull list."""
        return _shown(self, id)


class PullListClose(Endpoint):
    """Close the list as it was seen at `seq`; 409 when more has come. Answers with the differences."""

    request_bodies = {"post": CloseIn}
    responses = {"post": ReportOut}
    permissions = {"post": shop_access.STORES}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Close a pull list."""
        pull_lists.close_pull_list(
            actor=self.actor,
            pull_list=access.pull_list(self.actor, id),
            seq=self.body(request)["seq"],
            now=timezone.now(),
        )
        return _report(self, id)


class PullListReopen(Endpoint):
    """Counting goes on. Events that came after closing stay late."""

    responses = {"post": PullListOut}
    permissions = {"post": REOPENS}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Reopen a pull list."""
        pull_lists.reopen_pull_list(actor=self.actor, pull_list=access.pull_list(self.actor, id))
        return _shown(self, id)


class PullListReport(Endpoint):
    """Every line that is not all here, counted or not."""

    responses = {"get": ReportOut}
    permissions = {"get": shop_access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the report of a pull list."""
        return _report(self, id)


class PullListOrders(Endpoint):
    """Order proposals by supplier. Nothing is stored, and nothing is ordered."""

    responses = {"get": OrdersOut}
    permissions = {"get": shop_access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read order proposals."""
        return Response(orders_answer(self.actor, access.pull_list_of_job(self.actor, id), timezone.now()))


class PullListOrdersFile(Endpoint):
    """The order proposals of a pull list, for a spreadsheet."""

    responses = {"get": bytes}
    permissions = {"get": shop_access.EVERYONE}
    query_parameters = {"format": WORKBOOK_UNLESS_CSV}
    renderer_classes = [XLSXRenderer, CSVRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read order proposals as a file."""
        pull_list = access.pull_list_of_job(self.actor, id)
        name = f"orders-{pull_list.job}"
        return list_file(request, name, name, orders_headings(), orders_lines(self.actor, pull_list, timezone.now()))


class PullListPaper(Endpoint):
    """The list on paper, blank or with the counts; the same bytes until what it shows changes."""

    responses: ClassVar[Any] = {"get": {(200, "application/pdf"): OpenApiTypes.BINARY}}
    permissions = {"get": shop_access.EVERYONE}
    query_parameters = {"edition": one_of("blank (as without it) or counts", EDITIONS)}

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Print a pull list."""
        requested = request.query_params.get("edition", "blank")
        edition = next((known_edition for known_edition in EDITIONS if known_edition == requested), None)
        if edition is None:
            raise field_error("/edition", "edition")
        pull_list = access.pull_list_of_job(self.actor, id)
        name = f"pull-list-{pull_list.job}-{edition}.pdf"
        return HttpResponse(
            pull_list_paper(self.actor, pull_list, edition),
            content_type="application/pdf",
            headers={"Content-Disposition": f'inline; filename="{name}"', "Cache-Control": "private, no-cache"},
        )


class PullListFile(Endpoint):
    """The lines of a pull list with their counts, for a spreadsheet."""

    responses = {"get": bytes}
    permissions = {"get": shop_access.EVERYONE}
    query_parameters = {"format": WORKBOOK_UNLESS_CSV}
    renderer_classes = [XLSXRenderer, CSVRenderer]

    def get(self, request: Request, slug: str, id: UUID) -> HttpResponse:
        """Read a pull list as a file."""
        pull_list = access.pull_list_of_job(self.actor, id)
        name = f"pull-list-{pull_list.job}"
        return list_file(request, name, name, pull_list_headings(), pull_list_lines(self.actor, pull_list))


def _report(view: Endpoint, id: UUID) -> Response:
    return Response(report_answer(view.actor, access.pull_list_of_job(view.actor, id, "closed_by__user")))


def _shown(view: Endpoint, id: UUID) -> Response:
    pull_list = access.pull_list_to_show(view.actor, id)
    return versioned(list_answer(view.actor, pull_list), pull_list.version)
