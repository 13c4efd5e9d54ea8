"""The coolant circuits of a job: stored as sold, and mixed from measurements by the oracle of the phone."""

from dataclasses import replace
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.circuits import (
    Circuit,
    circuit_from,
    circuit_json,
    sold_circuits,
    with_capacity,
)
from kitting.calc.needs import CircuitAssumptions, NeedRow
from shop.calc.errors import CalculationError
from shop.calc.rules import CoolantRule
from tests.kitting.mix_oracle import CircuitMeasurement, bay_mix

SUPPOSED = CoolantRule(D("0.65"), D("0.42"), D("0.50"), D("0.5"), D("0.05"), D("0.5"))
TITLES = {"c": "Coolant concentrate, organic acid, ethylene glycol", "w": "Demineralised water"}
ROWS = (
    NeedRow("A", "c", "refill", D("0.4"), "coolant", glycol="ethylene"),
    NeedRow("A", "w", "refill_water", D("0.4"), "coolant"),
    NeedRow("B", "c", "refill", D("0.2"), "coolant", glycol="ethylene"),
    NeedRow("B", "c", "fixed", D("1.9"), glycol="ethylene"),
)


def sold(**capacities: str) -> tuple[Circuit, ...]:
    stated = {name: D(litres) for name, litres in capacities.items()}
    return sold_circuits(ROWS, CircuitAssumptions(stated, SUPPOSED, D("1.25")), TITLES)


def test_a_circuit_is_sold_with_what_every_kit_adds_and_what_was_supposed() -> None:
    (circuit,) = sold(coolant="14.2")
    assert (circuit.of, circuit.title, circuit.glycol) == ("coolant", TITLES["c"], "ethylene")
    assert (circuit.capacity, circuit.added, circuit.after) == (D("14.2"), D("0.6"), D("14.8"))
    assert (circuit.drained, circuit.residual, circuit.target) == (D("9.230"), D("0.42"), D("0.5"))


def test_it_is_kept_as_text_and_read_again() -> None:
    for (circuit,) in (sold(coolant="14.2"), sold()):
        content = circuit_json(circuit)
        assert circuit_from(content) == circuit
        assert all(value is None or isinstance(value, str) for value in content.values())
    assert (content["capacity"], content["drained"], content["target"]) == (None, None, "0.5")


def test_what_was_measured_takes_the_place_of_what_was_supposed() -> None:
    """9.6 L of 14.2 L at 42 % are drained and the kits add 0.4 L: 4.6 L stay and 10 L are filled, 5.368 L of it
    concentrate.
    """
    circuit = replace(sold(coolant="14.2")[0], added=D("0.4"))
    mix = bay_mix(circuit, CircuitMeasurement(D("9.6"), D(42))).mix
    assert (mix.status, mix.residual, mix.fill) == ("ok", D("4.600"), D("10.000"))
    assert (mix.concentrate, mix.water) == (D("5.368"), D("4.632"))
    assert bay_mix(circuit, CircuitMeasurement(D("9.6"), D(42))).concentrate_needed == D("5.368")
    assert (mix.target_freeze, mix.premix_only_concentration, mix.premix_only_freeze) == (
        D("-37.1"),
        D("0.4748"),
        D("-33.8"),
    )


@given(reading=st.decimals("-52", "-3.6", places=1))
def test_degrees_and_their_per_cent_give_the_same_mix(reading: D) -> None:
    (circuit,) = sold(coolant="14.2")
    by_degrees = bay_mix(circuit, CircuitMeasurement(D("9.6"), reading, "celsius"))
    percent = by_degrees.refill.residual_concentration * 100
    assert bay_mix(circuit, CircuitMeasurement(D("9.6"), percent)).mix == by_degrees.mix


@given(drained=st.decimals("0", "14.2", places=1), reading=st.integers(0, 100))
def test_after_what_it_says_to_drain_the_fill_it_says_reaches_the_target(drained: D, reading: int) -> None:
    (circuit,) = sold(coolant="14.2")
    mix = bay_mix(circuit, CircuitMeasurement(drained, D(reading)))
    if mix.mix.status == "ok":
        assert mix.then_fill is None
        return
    assert mix.mix.drain_at_least is not None and mix.mix.drain_at_least > drained
    then = bay_mix(circuit, CircuitMeasurement(mix.mix.drain_at_least, D(reading))).mix
    assert then.status == "ok" and (then.fill, then.residual) == (mix.then_fill, mix.may_stay)
    assert mix.drain_more == mix.mix.drain_at_least - drained
    assert (mix.concentrate_needed > mix.mix.fill) == (mix.mix.status == "drain_more")
    other = then.water if mix.mix.status == "drain_more" else then.concentrate
    assert other is not None and other <= D("0.002")


def test_the_capacity_on_the_vehicle_today_is_the_one_that_counts() -> None:
    (unknown,) = sold()
    assert with_capacity(unknown, None) == unknown
    assert bay_mix(with_capacity(unknown, D("10")), CircuitMeasurement(D(5), D(40))).mix.residual == D(5)


@pytest.mark.parametrize(
    ("change", "measured", "refusal"),
    [
        ({"capacity": None}, CircuitMeasurement(D(5), D(40)), "capacity_unknown: coolant"),
        ({"glycol": None}, CircuitMeasurement(D(5), D(-20), "celsius"), "glycol_unknown: -20"),
        ({}, CircuitMeasurement(D(5), D(-2), "celsius"), "residual_out_of_range: -2"),
        ({}, CircuitMeasurement(D(5), D("100.5")), "residual_out_of_range: 100.5"),
        ({}, CircuitMeasurement(D(5), D(-1)), "residual_out_of_range: -1"),
        ({}, CircuitMeasurement(D("14.3"), D(40)), "drained_out_of_range: 14.3"),
        ({}, CircuitMeasurement(D("-0.1"), D(40)), "drained_out_of_range: -0.1"),
    ],
)
def test_it_refuses_what_cannot_be(change: dict, measured: CircuitMeasurement, refusal: str) -> None:
    circuit = replace(sold(coolant="14.2")[0], **change)
    with pytest.raises(CalculationError, match=f"^{refusal}$"):
        bay_mix(circuit, measured)
