from uuid import UUID

from django.http import Http404
from rest_framework.request import Request
from rest_framework.response import Response

from kitting.answers.circuits import CircuitOut, MixOut
from kitting.calc.circuits import SCALES, CircuitMeasurement, bay_mix
from kitting.presenters.circuits import circuit_answer, mix_answer, no_mix
from kitting.queries.circuits import job_circuits
from shop import access
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.api.params import parse_decimal
from shop.api.query_parameters import decimal, one_of, required
from shop.calc.errors import CalculationError
from shop.errors import field_error


class Circuits(Endpoint):
    """The coolant circuits that a job refills, with what was assumed about them when it was sold."""

    responses = {"get": list_of(CircuitOut)}
    permissions = {"get": access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the coolant circuits of a job."""
        return Response({"items": [circuit_answer(circuit) for circuit in job_circuits(access.job(self.actor, id))]})


class CircuitMix(Endpoint):
    """The filling that follows from the measurements. Nothing is stored."""

    responses = {"get": MixOut}
    permissions = {"get": access.EVERYONE}
    query_parameters = {
        "drained": required(decimal("litres that ran out, as in 5.2", places=3)),
        "reading": required(decimal("what the refractometer reads, as in 38, or -24.5 in degrees", places=2)),
        "scale": one_of("percent (as it is) or celsius (the freeze point)", SCALES),
    }

    def get(self, request: Request, slug: str, id: UUID, name: str) -> Response:
        """Work out a mix."""
        circuit = next(
            (candidate for candidate in job_circuits(access.job(self.actor, id)) if candidate.of == name), None
        )
        if circuit is None:
            raise Http404
        measured = _measured(request)
        try:
            mix = bay_mix(circuit.circuit, measured)
        except CalculationError as refusal:
            raise no_mix(refusal, circuit.circuit, measured) from None
        return Response(mix_answer(circuit, measured, mix))


def _measured(request: Request) -> CircuitMeasurement:
    query = request.query_params
    scale = next((known_scale for known_scale in SCALES if known_scale == query.get("scale", SCALES[0])), None)
    if scale is None:
        raise field_error("/scale", "scale")
    return CircuitMeasurement(
        drained=parse_decimal(query.get("drained", ""), "/drained", "litres_drained", places=3),
        reading=parse_decimal(query.get("reading", ""), "/reading", f"reading_{scale}", places=2),
        scale=scale,
    )
