"""A job's coolant circuits. Litres; concentrations in per cent of the volume; degrees Celsius."""

from typing import Annotated

from msgspec import Meta

from kitting.calc.circuits import Scale
from kitting.calc.freezing import Glycol
from shop.answers.base import Answer, Exact


class CircuitOut(Answer, frozen=True):
    """A coolant circuit as it was sold. Litres; concentrations in per cent of the volume; degrees Celsius."""

    name: Annotated[str, Meta(description="The circuit, as the vehicle's capacities name it.")]
    title: Annotated[str, Meta(description="The coolant's name.")]
    concentrate: Annotated[str, Meta(description="The concentrate's name.")]
    chemistry: Annotated[str, Meta(description="The glycol in words, or empty.")]
    capacity: Annotated[Exact | None, Meta(description="Null where nobody has recorded it.")]
    capacity_words: Annotated[str, Meta(description="The capacity after the job in words.")]
    added: Annotated[Exact, Meta(description="By what the job adds to the circuit.")]
    after: Annotated[Exact | None, Meta(description="The capacity after the job.")]
    target: Annotated[Exact, Meta(description="The concentration to reach, in per cent.")]
    protects: Annotated[Exact | None, Meta(description="The freeze point at the target.")]
    protection_words: Annotated[str, Meta(description="The freeze point in words.")]
    drained: Annotated[Exact | None, Meta(description="Assumed, until somebody measures.")]
    residual: Annotated[Exact, Meta(description="The concentration of what stays: assumed, until somebody measures.")]
    scales: Annotated[list[Scale], Meta(description="The scales that may be read.")]
    glycol: Annotated[Glycol | None, Meta(description="Null where freeze points of the concentrate are not known.")]
    premix: Annotated[Exact, Meta(description="The concentration of premix, in per cent.")]
    mix_words: Annotated[
        dict[str, str],
        Meta(description="The sentences of a mix, their {facts} open: the phone works the mix out without signal."),
    ]
