"""Compares the phone's mix and its wording with the server's, character by character."""

import json
import subprocess
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

from msgspec import to_builtins

from kitting.calc.circuits import Circuit, CircuitMeasurement, bay_mix
from kitting.calc.freezing import GLYCOLS, Glycol
from kitting.presenters.circuits import circuit_answer, mix_answer, no_mix
from kitting.queries.circuits import JobCircuit
from shop.api.problems import problem
from shop.calc.errors import CalculationError
from shop.calc.quantity import plain

ON_THE_PHONE = Path(__file__).with_name("mix_all.mjs")

Asked = tuple[JobCircuit, CircuitMeasurement]


def at_random(seed: int, n: int) -> Iterator[Asked]:
    """Inputs of every kind: mixes within reach, too weak, too strong, off the scale, and with unknown capacity."""
    chance = Random(seed)
    for _ in range(n):
        litres = Decimal(chance.randint(1, 400)).scaleb(-1)
        capacity = None if chance.random() < 0.03 else litres
        glycol: Glycol | None = chance.choice([*GLYCOLS, None])
        circuit = Circuit(
            of=chance.choice(["coolant", "charge_cooler"]),
            title="Concentrate",
            glycol=glycol,
            capacity=capacity,
            added=Decimal(chance.choice([0, 0, chance.randint(1, 30)])).scaleb(-1),
            target=Decimal(chance.randint(30, 65)) / 100,
            residual=Decimal("0.42"),
            drained_share=Decimal("0.65"),
            premix=Decimal(chance.choice([40, 45, 50, 60])) / 100,
            order_allowance=Decimal("0.05"),
            top_up=Decimal("0.5"),
        )
        yield JobCircuit(circuit, stated=chance.choice([True, False]), sold=None), measured(chance, litres)


def measured(chance: Random, litres: Decimal) -> CircuitMeasurement:
    share = Decimal(chance.choice([0, 1000, chance.randint(0, 1000), chance.randint(0, 1020)])) / 1000
    drained = (litres * share).quantize(Decimal("0.001"))
    if chance.random() < 0.4:
        return CircuitMeasurement(drained, -Decimal(chance.randint(250, 5300)).scaleb(-2), "celsius")
    return CircuitMeasurement(drained, Decimal(chance.choice([0, 10000, chance.randint(0, 10100)])).scaleb(-2))


def by_the_server(job_circuit: JobCircuit, measurement: CircuitMeasurement) -> dict[str, Any]:
    try:
        return {"mix": to_builtins(mix_answer(job_circuit, measurement, bay_mix(job_circuit.circuit, measurement)))}
    except CalculationError as refusal:
        body = problem(no_mix(refusal, job_circuit.circuit, measurement)).body()
        pointer = body.get("errors", [{"pointer": ""}])[0]["pointer"]
        return {"no": {"pointer": pointer, "title": body["title"], "words": body["detail"]}}


def sent(job_circuit: JobCircuit, measurement: CircuitMeasurement) -> list[dict[str, Any]]:
    typed = {"drained": plain(measurement.drained), "reading": plain(measurement.reading), "scale": measurement.scale}
    return [to_builtins(circuit_answer(job_circuit)), typed]


def test_the_phone_mixes_4000_circuits_in_the_same_words() -> None:
    inputs = list(at_random(20261125, 4000))
    text = json.dumps([sent(*pair) for pair in inputs])
    run = subprocess.run(["node", ON_THE_PHONE], input=text, capture_output=True, text=True, check=False, timeout=120)
    assert run.returncode == 0, run.stderr
    answers = json.loads(run.stdout)
    expected = [by_the_server(*pair) for pair in inputs]
    assert len(answers) == len(expected)
    for pair, answer, result in zip(inputs, answers, expected, strict=True):
        assert answer == result, pair
    kinds = Counter(result["mix"]["status"] if "mix" in result else result["no"]["words"][:12] for result in expected)
    assert len(kinds) == 8 and min(kinds.values()) >= 8, kinds
