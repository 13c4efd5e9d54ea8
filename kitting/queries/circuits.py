"""The coolant circuits of a job."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from kitting.calc.circuits import Circuit, circuit_from, with_capacity
from kitting.models import PullList
from shop.models import Job


@dataclass(frozen=True, slots=True)
class JobCircuit:
    """A circuit to mix for. `stated`: its capacity is recorded on the vehicle today; `sold` is the quote's capacity."""

    circuit: Circuit
    stated: bool
    sold: Decimal | None

    @property
    def of(self) -> str:
        return self.circuit.of


def job_circuits(job: Job) -> list[JobCircuit]:
    """The coolant circuits of the job's quote, with the capacity recorded on the vehicle today.

    Empty for a job whose quote is older than the record of circuits.
    """
    facts_of_lists = (
        PullList.objects.filter(shop=job.shop_id, job=job).order_by("opened_at").values_list("facts", flat=True)
    )
    sold: list[Any] = next((facts["circuits"] for facts in facts_of_lists if facts.get("circuits")), [])
    return [_job_circuit(circuit_from(circuit), job.vehicle.capacities) for circuit in sold]


def _job_circuit(circuit: Circuit, capacities: Mapping[str, str]) -> JobCircuit:
    litres = Decimal(capacities.get(circuit.of) or 0)
    stated = litres > 0
    return JobCircuit(with_capacity(circuit, litres if stated else None), stated, circuit.capacity)
