"""A job's coolant circuits as answers."""

from decimal import Decimal
from fractions import Fraction

from kitting.answers.circuits import CircuitOut
from kitting.calc import pouring
from kitting.calc.circuits import Circuit
from kitting.calc.freezing import Glycol, freeze_point
from kitting.queries.circuits import JobCircuit
from shop.calc.quantity import plain
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


def title_of(circuit: Circuit) -> str:
    """The heading of a circuit; one that the catalogue does not know bears the workshop's own name."""
    own = circuit.of.replace("_", " ")
    return say("circuit.title", of=circuit.of.replace(" ", "_"), own=own)


def freeze_point_of(circuit: Circuit) -> Decimal | None:
    return freeze_point(Fraction(circuit.target), circuit.glycol)


def percent(share: Decimal) -> str:
    """The percentage of a share, as a value of the API."""
    return plain(share * 100)


def percent_words(share: Decimal) -> str:
    return number(share * 100)


def degrees(celsius: Decimal) -> str:
    """The temperature with a true minus sign."""
    return number(celsius)


def protection(concentration: Decimal, protects: Decimal | None, glycol: Glycol | None) -> str:
    if protects is not None:
        return say("mix.protects", degrees=degrees(pouring.degrees(protects)), percent=percent_words(concentration))
    return say("mix.protects_beyond" if glycol else "mix.protects_unknown", percent=percent_words(concentration))


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
