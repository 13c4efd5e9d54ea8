"""A job's coolant circuits and their mixes. Litres; concentrations in per cent of the volume; degrees Celsius."""

from typing import Annotated, Literal

from msgspec import Meta

from kitting.calc.circuits import Scale
from kitting.calc.coolant import Status
from kitting.calc.freezing import Glycol
from shop.answers.base import Answer, Exact
from shop.answers.explained import ExplainedOut


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
    target: Exact
    protects: Annotated[Exact | None, Meta(description="The freeze point at the target.")]
    protection_words: str
    drained: Annotated[Exact | None, Meta(description="Assumed, until somebody measures.")]
    residual: Annotated[Exact, Meta(description="The concentration of what stays: assumed, until somebody measures.")]
    scales: Annotated[list[Scale], Meta(description="The scales that may be read.")]
    glycol: Annotated[Glycol | None, Meta(description="Null where freeze points of the concentrate are not known.")]
    premix: Annotated[Exact, Meta(description="The concentration of premix, in per cent.")]
    mix_words: Annotated[
        dict[str, str],
        Meta(
            description="The sentences of a mix, for a phone without signal: the same as in the answer of `mix`, their "
            "{facts} open."
        ),
    ]


class PremixOut(Answer, frozen=True):
    """The other way to fill: premix and a little of one of the two."""

    premix: Annotated[Exact, Meta(description="Litres of premix to fill in.")]
    concentrate: Annotated[Exact, Meta(description="Litres of concentrate to fill in.")]
    water: Annotated[Exact, Meta(description="Litres of water to fill in.")]
    words: str


class PremixOnlyOut(Answer, frozen=True):
    """The strength that premix alone would reach."""

    percent: Annotated[Exact, Meta(description="The concentration that it would reach.")]
    protects: Exact | None
    words: str


class RemedyOut(Answer, frozen=True):
    """The litres to drain before the target can be reached, and the pure fluid to add afterwards."""

    drain_at_least: Annotated[Exact, Meta(description="In all.")]
    drain_more: Annotated[Exact, Meta(description="More than has been drained.")]
    then_fill: Annotated[Exact, Meta(description="Litres to fill in afterwards.")]
    fluid: Annotated[Literal["concentrate", "water"], Meta(description="The fluid to fill in.")]
    why: Annotated[str, Meta(description="Why the target is out of reach.")]
    words: str


class MixOut(Answer, frozen=True):
    """The filling now. Where the target is out of reach, `concentrate` and `water` are null and `remedy` is given."""

    status: Annotated[Status, Meta(description="Whether the target can be reached.")]
    words: str
    concentrate: Annotated[Exact | None, Meta(description="Litres of concentrate to fill in.")]
    water: Annotated[Exact | None, Meta(description="Litres of water to fill in.")]
    fill: Annotated[Exact, Meta(description="Litres to fill in, in all.")]
    stays: Annotated[Exact, Meta(description="The litres that stay in the circuit.")]
    residual: Annotated[Exact, Meta(description="The concentration of what stays, in per cent.")]
    after: Annotated[Exact, Meta(description="Litres in the circuit afterwards.")]
    target: Exact
    protects: Exact | None
    protection_words: str
    premix: Annotated[PremixOut | None, Meta(description="The same with premix; null where it cannot be.")]
    premix_only: Annotated[
        PremixOnlyOut | None, Meta(description="What premix alone would reach; null where that is not known.")
    ]
    remedy: Annotated[RemedyOut | None, Meta(description="What to do where the target is out of reach; else null.")]
    how: ExplainedOut
