"""Compares the phone's mix and its wording with those of the oracle, character by character."""

import json
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

import pytest
from msgspec import to_builtins

from kitting.calc.circuits import Circuit
from kitting.calc.freezing import GLYCOLS, Glycol
from kitting.presenters import circuits
from kitting.presenters.circuits import circuit_answer
from kitting.queries.circuits import JobCircuit
from shop.calc.quantity import plain
from shop.words import catalogue, say
from shop.words.catalogues import ident
from tests.examples import LONG, many
from tests.kitting import mix_oracle
from tests.kitting.mix_oracle import CircuitMeasurement

ON_THE_PHONE = Path(__file__).with_name("mix_all.mjs")

Asked = tuple[JobCircuit, CircuitMeasurement]


def at_random(seed: int, n: int) -> Iterator[Asked]:
    """Inputs of every kind: mixes within reach, too weak, too strong, off the scale, and with unknown capacity."""
    chance = Random(seed)
    for number in range(n):
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
        stated, measurement = chance.choice([True, False]), measured(chance, litres)
        if number % 100 == 0:  # nothing ran out, the kits add nothing, and it is as strong as it must be
            circuit = replace(circuit, added=Decimal(0))
            measurement = CircuitMeasurement(Decimal(0), circuit.target * 100)
        yield JobCircuit(circuit, stated=stated, sold=None), measurement


def measured(chance: Random, litres: Decimal) -> CircuitMeasurement:
    share = Decimal(chance.choice([0, 1000, chance.randint(0, 1000), chance.randint(0, 1020)])) / 1000
    drained = (litres * share).quantize(Decimal("0.001"))
    if chance.random() < 0.4:
        return CircuitMeasurement(drained, -Decimal(chance.randint(250, 5300)).scaleb(-2), "celsius")
    return CircuitMeasurement(drained, Decimal(chance.choice([0, 10000, chance.randint(0, 10100)])).scaleb(-2))


def sent(job_circuit: JobCircuit, measurement: CircuitMeasurement) -> list[dict[str, Any]]:
    typed = {"drained": plain(measurement.drained), "reading": plain(measurement.reading), "scale": measurement.scale}
    return [to_builtins(circuit_answer(job_circuit)), typed]


def test_the_phone_mixes_every_kind_of_circuit_in_the_same_words(monkeypatch: pytest.MonkeyPatch) -> None:
    titles: set[str] = set()

    def noted(key: str, /, **facts: object) -> str:
        titles.add(ident(key))
        return say(key, **facts)

    for module in (mix_oracle, circuits):
        monkeypatch.setattr(module, "say", noted)
    inputs = list(at_random(20261125, many(4000)))
    text = json.dumps([sent(*pair) for pair in inputs])
    run = subprocess.run(["node", ON_THE_PHONE], input=text, capture_output=True, text=True, check=False, timeout=120)
    assert run.returncode == 0, run.stderr
    answers = json.loads(run.stdout)
    expected = [mix_oracle.mixed(*pair) for pair in inputs]
    assert len(answers) == len(expected)
    for pair, answer, result in zip(inputs, answers, expected, strict=True):
        assert answer == result, pair
    kinds = Counter(result["mix"]["status"] if "mix" in result else result["no"]["words"][:12] for result in expected)
    assert len(kinds) == 8 and min(kinds.values()) >= (8 if LONG else 1), kinds
    assert {key for key in catalogue() if key.startswith("mix-")} <= titles, "a sentence that no mix says"
