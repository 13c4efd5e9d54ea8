from typing import Any
from uuid import UUID

from django.db.models import Sum
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.endpoint import Endpoint, versioned
from shop.models import Job as JobRow
from shop.models import JobOperation
from shop.openapi import listed
from shop.problems import field_problem
from shop.serializers.jobs import JobOut, JobRowOut
from shop.shapes import iso


class Jobs(Endpoint):
    """Jobs, newest first."""

    gives = {"get": listed(JobRowOut)}
    queries = {"state": "open for all that are neither handed over nor called off, or one state"}
    pages = True

    def get(self, request: Request, slug: str) -> Response:
        rows = access.jobs(self.who).select_related("customer", "vehicle")
        rows = rows.annotate(quoted=Sum("operations__quoted_hours"))
        state = request.query_params.get("state")
        if state == "open":
            rows = rows.exclude(state__in=[JobRow.State.HANDED_OVER, JobRow.State.CALLED_OFF])
        elif state:
            if state not in JobRow.State.values:
                raise field_problem("/state", "unknown_state", known=", ".join(["open", *JobRow.State.values]))
            rows = rows.filter(state=state)
        return self.page(request, rows, ("-number",), _row)


class Job(Endpoint):
    """One job with the work as it was sold. No price and no cost: a technician reads it."""

    gives = {"get": JobOut}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        job = access.job(self.who, id)
        operations = list(JobOperation.objects.filter(shop=self.who.shop, job=job).order_by("position"))
        job.quoted = sum(each.quoted_hours for each in operations)  # type: ignore[attr-defined]
        shape = _row(job) | {
            "vin_tail": job.vehicle.vin[-6:],
            "attributes": job.vehicle.attributes,
            "capacities": job.vehicle.capacities,
            "operations": [_operation(each) for each in operations],
        }
        return versioned(shape, job.version)


def _row(job: Any) -> dict[str, Any]:
    return {
        "id": str(job.pk),
        "number": str(job),
        "state": job.state,
        "customer": job.customer.name,
        "vehicle": job.vehicle.title,
        "plate": job.vehicle.plate,
        "hours": f"{job.quoted or 0:.1f}",
        "opened_at": iso(job.opened_at),
    }


def _operation(operation: JobOperation) -> dict[str, Any]:
    sheet = operation.sheet
    return {
        "position": operation.position,
        "code": operation.code,
        "title": operation.title,
        "hours": f"{operation.quoted_hours:.1f}",
        "skill": sheet.get("skill", ""),
        "stage": sheet.get("stage", ""),
        "after": sheet.get("after", []),
        "wait_after": sheet.get("wait_after", 0),
        "no_return": sheet.get("no_return", False),
        "mobile_again": sheet.get("mobile_again", False),
        "hold_point": sheet.get("hold_point", False),
        "cautions": sheet.get("cautions", []),
        "torques": sheet.get("torques", []),
        "kits": sheet.get("kits", []),
        "why": sheet.get("why", []),
    }
