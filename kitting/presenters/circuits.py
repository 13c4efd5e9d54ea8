"""A job's coolant circuits and their mixes as answers."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from kitting.answers.circuits import CircuitOut, MixOut, PremixOnlyOut, PremixOut, RemedyOut
from kitting.calc import pouring
from kitting.calc.circuits import BayMix, Circuit, CircuitMeasurement
from kitting.calc.coolant import Mix
from kitting.calc.freezing import Glycol, freeze_point, warmest_and_coldest
from kitting.queries.circuits import JobCircuit
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.calc.errors import CalculationError
from shop.calc.quantity import plain
from shop.errors import FieldError, RequestError
from shop.words import catalogue, say, template
from shop.words.figures import number


def circuit_answer(job_circuit: JobCircuit) -> CircuitOut:
    circuit = job_circuit.circuit
    protects = freeze_point_of(circuit)
    return CircuitOut(
        name=circuit.of,
        title=title_of(circuit),
        concentrate=circuit.title,
        chemistry="" if circuit.glycol is None else say(f"circuit.{circuit.glycol}"),
        capacity=_text(circuit.capacity),
        capacity_words=_capacity_words(job_circuit),
        added=plain(circuit.added),
        after=_text(circuit.after),
        target=percent(circuit.target),
        protects=_text(protects),
        protection_words=protection(circuit.target, protects, circuit.glycol),
        drained=_text(circuit.drained),
        residual=percent(circuit.residual),
        scales=["percent"] if circuit.glycol is None else ["percent", "celsius"],
        glycol=circuit.glycol,
        premix=percent(circuit.premix),
        mix_words=_mix_words(),
    )


def _mix_words() -> dict[str, str]:
    """Templates of a mix's sentences, with {facts} to fill in: the phone mixes without signal."""
    mixes = [identifier for identifier in catalogue() if identifier.startswith("mix-")]
    words = {identifier.removeprefix("mix-").replace("-", "."): template(identifier) for identifier in mixes}
    return words | {"cannot": say("problem.cannot-compute.title")}


def mix_answer(job_circuit: JobCircuit, measured: CircuitMeasurement, result: BayMix) -> MixOut:
    """The mix in litres and degrees as poured and read; `how` has the exact figures."""
    mix, circuit = result.mix, job_circuit.circuit
    poured = pouring.volumes_to_pour(mix)
    return MixOut(
        status=mix.status,
        words=_fill_words(mix, poured, circuit),
        concentrate=_text(poured.concentrate if poured else None),
        water=_text(poured.water if poured else None),
        fill=plain(poured.fill if poured else pouring.litres(mix.fill)),
        stays=plain(mix.residual),
        residual=percent(result.refill.residual_concentration),
        after=plain(mix.capacity_after),
        target=percent(circuit.target),
        protects=_text(mix.target_freeze),
        protection_words=protection(circuit.target, mix.target_freeze, circuit.glycol),
        premix=_premix(mix, poured, circuit),
        premix_only=_premix_only(mix),
        remedy=_remedy(result, circuit),
        how=ExplainedOut(
            title=say("mix.how.title", circuit=title_of(circuit)),
            rule=[say(f"mix.how.rule.{n}") for n in (1, 2, 3)],
            steps=[HowStepOut(words, figure) for words, figure in _steps(job_circuit, measured, result)],
            result=_result(mix),
        ),
    )


def no_mix(refusal: CalculationError, circuit: Circuit, measured: CircuitMeasurement) -> RequestError:
    """The refusal of a measurement, at the field that caused it, with the values that can be entered."""
    pointer, words = "", ""
    if refusal.code == "capacity_unknown":
        words = say("mix.capacity_unknown", circuit=name_of(circuit))
    elif refusal.code == "glycol_unknown":
        pointer, words = "/scale", say("mix.glycol_unknown")
    elif refusal.code == "drained_out_of_range" and circuit.capacity is not None:
        pointer, words = "/drained", say("mix.drained_too_much", capacity=number(circuit.capacity))
    elif refusal.code == "residual_out_of_range":
        pointer, words = "/reading", _off_the_scale(measured, circuit.glycol)
    else:
        raise refusal
    return RequestError(422, "cannot-compute", (FieldError(pointer, words=words),) if pointer else (), why=words)


def _off_the_scale(measured: CircuitMeasurement, glycol: Glycol | None) -> str:
    if glycol is None or measured.scale == "percent":
        return say("mix.reading_percent")
    warmest, coldest = warmest_and_coldest(glycol)
    return say("mix.reading_celsius", warmest=degrees(warmest), coldest=degrees(coldest))


def title_of(circuit: Circuit) -> str:
    """By itself, as a heading; a circuit that the catalogue does not know bears the workshop's own name."""
    return say("circuit.title", of=circuit.of.replace(" ", "_"), own=_own_name(circuit))


def name_of(circuit: Circuit) -> str:
    """Inside a sentence."""
    return say("circuit.name", of=circuit.of.replace(" ", "_"), own=_own_name(circuit))


def _own_name(circuit: Circuit) -> str:
    return circuit.of.replace("_", " ")


def freeze_point_of(circuit: Circuit) -> Decimal | None:
    return freeze_point(Fraction(circuit.target), circuit.glycol)


def percent(share: Decimal) -> str:
    """Of a share, as a value of the API."""
    return plain(share * 100)


def _percent_words(share: Decimal) -> str:
    return number(share * 100)


def degrees(celsius: Decimal) -> str:
    """The temperature with a true minus sign."""
    return number(celsius)


def protection(concentration: Decimal, protects: Decimal | None, glycol: Glycol | None) -> str:
    if protects is not None:
        return say("mix.protects", degrees=degrees(pouring.degrees(protects)), percent=_percent_words(concentration))
    return say("mix.protects_beyond" if glycol else "mix.protects_unknown", percent=_percent_words(concentration))


def _text(value: Decimal | None) -> str | None:
    return None if value is None else plain(value)


def _capacity_words(job_circuit: JobCircuit) -> str:
    if job_circuit.circuit.capacity is None:
        return say("circuit.capacity_unknown")
    if not job_circuit.stated:
        return say("circuit.capacity_sold")
    if job_circuit.sold is not None and job_circuit.sold != job_circuit.circuit.capacity:
        return say("circuit.capacity_corrected", sold=number(job_circuit.sold))
    return say("circuit.capacity_stated")


def _fill_words(mix: Mix, poured: pouring.PouredVolumes | None, circuit: Circuit) -> str:
    target = _percent_words(circuit.target)
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


def _premix(mix: Mix, poured: pouring.PouredVolumes | None, circuit: Circuit) -> PremixOut | None:
    if poured is None or not mix.fill:
        return None
    beside = "concentrate" if poured.premix_concentrate else "water" if poured.premix_water else "alone"
    return PremixOut(
        premix=plain(poured.premix),
        concentrate=plain(poured.premix_concentrate),
        water=plain(poured.premix_water),
        words=say(
            f"mix.premix.{beside}",
            premix=number(poured.premix),
            percent=_percent_words(circuit.premix),
            litres=number(poured.premix_concentrate or poured.premix_water),
        ),
    )


def _premix_only(mix: Mix) -> PremixOnlyOut | None:
    reached, protects = mix.premix_only_concentration, mix.premix_only_freeze
    if reached is None or not mix.fill:
        return None
    facts = {"percent": number(pouring.percent(reached))}
    words = say("mix.premix_only", **facts)
    if protects is not None:
        words = say("mix.premix_only_protects", degrees=degrees(pouring.degrees(protects)), **facts)
    return PremixOnlyOut(percent=percent(reached), protects=_text(protects), words=words)


def _remedy(result: BayMix, circuit: Circuit) -> RemedyOut | None:
    exact, exact_more, exact_then = result.mix.drain_at_least, result.drain_more, result.then_fill
    if exact is None or exact_more is None or exact_then is None:
        return None
    at_least = pouring.drained_at_least(exact, result.refill.capacity_before)
    more, then = exact_more + at_least - exact, exact_then + at_least - exact
    target = _percent_words(circuit.target)
    facts = {"at_least": number(at_least), "more": number(more), "fill": number(then), "target": target}
    return RemedyOut(
        drain_at_least=plain(at_least),
        drain_more=plain(more),
        then_fill=plain(then),
        fluid="concentrate" if result.mix.status == "drain_more" else "water",
        why=say(f"mix.{result.mix.status}_why", **facts),
        words=say(f"mix.{result.mix.status}_remedy", **facts),
    )


def _steps(job_circuit: JobCircuit, measured: CircuitMeasurement, result: BayMix) -> Iterator[tuple[str, str]]:
    """(words, figure) of each step, from the ones before: residual, fill, concentrate, water."""
    refill, mix = result.refill, result.mix
    capacity, drained = number(refill.capacity_before), number(refill.drained)
    after, stays, fill = number(mix.capacity_after), number(mix.residual), number(mix.fill)
    target, strength = _percent_words(refill.target_concentration), _percent_words(refill.residual_concentration)
    yield say("mix.how.holds", why=_capacity_words(job_circuit)), _litres(capacity)
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
