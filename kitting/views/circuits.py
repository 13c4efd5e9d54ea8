from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from kitting.answers.circuits import CircuitOut
from kitting.presenters.circuits import circuit_answer
from kitting.queries.circuits import job_circuits
from shop import access
from shop.api.components import list_of
from shop.api.endpoint import Endpoint


class Circuits(Endpoint):
    """The coolant circuits that a job refills, with what was assumed about them when it was sold."""

    responses = {"get": list_of(CircuitOut)}
    permissions = {"get": access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the coolant circuits of a job."""
        return Response({"items": [circuit_answer(circuit) for circuit in job_circuits(access.job(self.actor, id))]})
