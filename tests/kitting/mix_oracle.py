"""The mix of a circuit from what the bay measures, worked out a second time: the phone's own is held against it.

Litres; concentrations in per cent of the volume; degrees Celsius. The sentences are the catalogue's.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal, localcontext
from typing import Any

from kitting.calc import pouring
from kitting.calc.circuits import Circuit, Scale
from kitting.calc.coolant import LITRES, Mix, Refill, refill
from kitting.calc.freezing import Glycol, concentration_at, warmest_and_coldest
from kitting.presenters.circuits import circuit_answer, degrees, percent, percent_words, protection
from kitting.queries.circuits import JobCircuit
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import plain
from shop.words import say
from shop.words.figures import number

Answer = dict[str, Any]


@dataclass(frozen=True, slots=True)
class CircuitMeasurement:
    """Two measurements: the litres drained, and the refractometer's reading in per cent or degrees Celsius."""

    drained: Decimal
    reading: Decimal
    scale: Scale = "percent"


@dataclass(frozen=True, slots=True)
class BayMix:
    """The mix for a measurement. `concentrate_needed` reaches the target, whether there is room for it or not.

    If there is not: `drain_more` is the rest up to `mix.drain_at_least`, `may_stay` the old mix that then remains, and
    `then_fill` the volume to pour in afterwards.
    """

    refill: Refill
    mix: Mix
    concentrate_needed: Decimal
    drain_more: Decimal | None = None
    may_stay: Decimal | None = None
    then_fill: Decimal | None = None


def mixed(job_circuit: JobCircuit, measured: CircuitMeasurement) -> Answer:
    """{"mix": ...} or {"no": ...}, as the phone's `bayMix` answers."""
    try:
        return {"mix": mix_answer(job_circuit, measured, bay_mix(job_circuit.circuit, measured))}
    except CalculationError as refusal:
        return {"no": no_mix(refusal, job_circuit.circuit, measured)}


def bay_mix(circuit: Circuit, measured: CircuitMeasurement) -> BayMix:
    """The mix that brings the circuit to its target concentration.

    Refuses `capacity_unknown` (not recorded), `glycol_unknown` (degrees mean nothing without it),
    `residual_out_of_range` (a reading outside the scale) and what `refill` refuses.
    """
    if circuit.capacity is None:
        raise CalculationError("capacity_unknown", circuit.of)
    refill_input = Refill(
        capacity_before=circuit.capacity,
        drained=measured.drained,
        residual_concentration=_concentration(measured, circuit.glycol),
        target_concentration=circuit.target,
        added_to_circuit=circuit.added,
        premix_concentration=circuit.premix,
        order_allowance=circuit.order_allowance,
        top_up=circuit.top_up,
        glycol=circuit.glycol,
    )
    mix = refill(refill_input)
    with localcontext(EXACT):
        stayed = (refill_input.capacity_before - refill_input.drained) * refill_input.residual_concentration
        concentrate = (
            refill_input.capacity_before + refill_input.added_to_circuit
        ) * refill_input.target_concentration - stayed
        without_more_draining = BayMix(refill_input, mix, rounded(concentrate, LITRES))
        at_least = mix.drain_at_least
        if at_least is None:
            return without_more_draining
        may_stay = refill_input.capacity_before - at_least
        return replace(
            without_more_draining,
            drain_more=at_least - refill_input.drained,
            may_stay=may_stay,
            then_fill=at_least + refill_input.added_to_circuit,
        )


def _concentration(measured: CircuitMeasurement, glycol: Glycol | None) -> Decimal:
    if measured.scale == "celsius":
        if glycol is None:
            raise CalculationError("glycol_unknown", plain(measured.reading))
        return concentration_at(measured.reading, glycol)
    if not 0 <= measured.reading <= 100:
        raise CalculationError("residual_out_of_range", plain(measured.reading))
    with localcontext(EXACT):
        return measured.reading / 100


def mix_answer(job_circuit: JobCircuit, measured: CircuitMeasurement, result: BayMix) -> Answer:
    """The mix in litres and degrees as poured and read; `how` has the exact figures."""
    mix, circuit = result.mix, job_circuit.circuit
    poured = pouring.volumes_to_pour(mix)
    return {
        "status": mix.status,
        "words": _fill_words(mix, poured, circuit),
        "concentrate": _text(poured.concentrate if poured else None),
        "water": _text(poured.water if poured else None),
        "fill": plain(poured.fill if poured else pouring.litres(mix.fill)),
        "stays": plain(mix.residual),
        "residual": percent(result.refill.residual_concentration),
        "after": plain(mix.capacity_after),
        "target": percent(circuit.target),
        "protects": _text(mix.target_freeze),
        "protection_words": protection(circuit.target, mix.target_freeze, circuit.glycol),
        "premix": _premix(mix, poured, circuit),
        "premix_only": _premix_only(mix),
        "remedy": _remedy(result, circuit),
        "how": {
            "title": say("mix.how.title", circuit=circuit_answer(job_circuit).title),
            "rule": [say(f"mix.how.rule.{n}") for n in (1, 2, 3)],
            "steps": [{"words": words, "figure": figure} for words, figure in _steps(job_circuit, measured, result)],
            "result": _result(mix),
        },
    }


def no_mix(refusal: CalculationError, circuit: Circuit, measured: CircuitMeasurement) -> Answer:
    """The refusal of a measurement, at the field that caused it, with the values that can be entered."""
    pointer, words = "", ""
    if refusal.code == "capacity_unknown":
        words = say("mix.capacity_unknown", circuit=circuit.of.replace("_", " "))
    elif refusal.code == "glycol_unknown":
        pointer, words = "/scale", say("mix.glycol_unknown")
    elif refusal.code == "drained_out_of_range" and circuit.capacity is not None:
        pointer, words = "/drained", say("mix.drained_too_much", capacity=number(circuit.capacity))
    elif refusal.code == "residual_out_of_range":
        pointer, words = "/reading", _off_the_scale(measured, circuit.glycol)
    else:
        raise refusal
    return {"pointer": pointer, "title": say("problem.cannot-compute.title"), "words": words}


def _off_the_scale(measured: CircuitMeasurement, glycol: Glycol | None) -> str:
    if glycol is None or measured.scale == "percent":
        return say("mix.reading_percent")
    warmest, coldest = warmest_and_coldest(glycol)
    return say("mix.reading_celsius", warmest=degrees(warmest), coldest=degrees(coldest))


def _text(value: Decimal | None) -> str | None:
    return None if value is None else plain(value)


def _fill_words(mix: Mix, poured: pouring.PouredVolumes | None, circuit: Circuit) -> str:
    target = percent_words(circuit.target)
    if poured is None:
        return say(f"mix.{mix.status}", target=target)
    if not mix.fill:
        return say("mix.nothing", target=target)
    return say("mix.fill", concentrate=number(poured.concentrate), water=number(poured.water))


def _result(mix: Mix) -> str:
    """The result of the mix in litres, short enough for the column of figures."""
    if mix.concentrate is None or mix.water is None:
        return _litres(number(mix.drain_at_least or mix.fill))
    return say("mix.how.result", concentrate=number(mix.concentrate), water=number(mix.water))


def _premix(mix: Mix, poured: pouring.PouredVolumes | None, circuit: Circuit) -> Answer | None:
    if poured is None or not mix.fill:
        return None
    beside = "concentrate" if poured.premix_concentrate else "water" if poured.premix_water else "alone"
    return {
        "premix": plain(poured.premix),
        "concentrate": plain(poured.premix_concentrate),
        "water": plain(poured.premix_water),
        "words": say(
            f"mix.premix.{beside}",
            premix=number(poured.premix),
            percent=percent_words(circuit.premix),
            litres=number(poured.premix_concentrate or poured.premix_water),
        ),
    }


def _premix_only(mix: Mix) -> Answer | None:
    reached, protects = mix.premix_only_concentration, mix.premix_only_freeze
    if reached is None or not mix.fill:
        return None
    facts = {"percent": number(pouring.percent(reached))}
    words = say("mix.premix_only", **facts)
    if protects is not None:
        words = say("mix.premix_only_protects", degrees=degrees(pouring.degrees(protects)), **facts)
    return {"percent": percent(reached), "protects": _text(protects), "words": words}


def _remedy(result: BayMix, circuit: Circuit) -> Answer | None:
    exact, exact_more, exact_then = result.mix.drain_at_least, result.drain_more, result.then_fill
    if exact is None or exact_more is None or exact_then is None:
        return None
    at_least = pouring.drained_at_least(exact, result.refill.capacity_before)
    more, then = exact_more + at_least - exact, exact_then + at_least - exact
    target = percent_words(circuit.target)
    facts = {"at_least": number(at_least), "more": number(more), "fill": number(then), "target": target}
    return {
        "drain_at_least": plain(at_least),
        "drain_more": plain(more),
        "then_fill": plain(then),
        "fluid": "concentrate" if result.mix.status == "drain_more" else "water",
        "why": say(f"mix.{result.mix.status}_why", **facts),
        "words": say(f"mix.{result.mix.status}_remedy", **facts),
    }


def _steps(job_circuit: JobCircuit, measured: CircuitMeasurement, result: BayMix) -> Iterator[tuple[str, str]]:
    """(words, figure) of each step, from the ones before: residual, fill, concentrate, water."""
    refill, mix = result.refill, result.mix
    capacity, drained = number(refill.capacity_before), number(refill.drained)
    after, stays, fill = number(mix.capacity_after), number(mix.residual), number(mix.fill)
    target, strength = percent_words(refill.target_concentration), percent_words(refill.residual_concentration)
    yield say("mix.how.holds", why=circuit_answer(job_circuit).capacity_words), _litres(capacity)
    if refill.added_to_circuit:
        added = number(refill.added_to_circuit)
        yield say("mix.how.after", capacity=capacity, added=added), _litres(after)
    yield say("mix.how.stays", capacity=capacity, drained=drained), _litres(stays)
    if measured.scale == "celsius":
        yield say("mix.how.degrees", degrees=degrees(measured.reading)), say("mix.how.percent", percent=strength)
    yield say("mix.how.fill", after=after, stays=stays), _litres(fill)
    concentrate = number(result.concentrate_needed)
    yield say("mix.how.concentrate", after=after, target=target, stays=stays, strength=strength), _litres(concentrate)
    if mix.water is not None:
        yield say("mix.how.water", fill=fill, concentrate=concentrate), _litres(number(mix.water))
        if mix.target_freeze is not None:
            yield say("mix.how.freezes", target=target), say("mix.how.celsius", degrees=degrees(mix.target_freeze))
        return
    yield from _drained_further(result, after, target, strength)


def _drained_further(result: BayMix, after: str, target: str, strength: str) -> Iterator[tuple[str, str]]:
    if result.may_stay is None or result.mix.drain_at_least is None:
        return
    may_stay, capacity = number(result.may_stay), number(result.refill.capacity_before)
    yield say(f"mix.how.may_stay.{result.mix.status}", after=after, target=target, strength=strength), _litres(may_stay)
    yield say("mix.how.drain", capacity=capacity, may_stay=may_stay), _litres(number(result.mix.drain_at_least))


def _litres(figure: str) -> str:
    return say("mix.how.litres", litres=figure)
