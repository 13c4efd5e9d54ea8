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

    name: str
    title: str
    concentrate: Annotated[str, Meta(description="The concentrate's name.")]
    chemistry: Annotated[str, Meta(description="The glycol in words, or empty.")]
    capacity: Annotated[Exact | None, Meta(description="Null where nobody has recorded it.")]
    capacity_words: str
    added: Annotated[Exact, Meta(description="By what the job adds to the circuit.")]
    after: Annotated[Exact | None, Meta(description="The capacity after the job.")]
    target: Exact
    protects: Annotated[Exact | None, Meta(description="The freeze point at the target.")]
    protection_words: str
    drained: Annotated[Exact | None, Meta(description="Assumed, until somebody measures.")]
    residual: Annotated[Exact, Meta(description="The concentration of what stays: assumed, until somebody measures.")]
    scales: Annotated[list[Scale], Meta(description="The scales that may be read.")]
    glycol: Glycol | None
    premix: Exact
    mix_words: Annotated[
        dict[str, str],
        Meta(
            description="The sentences of a mix, for a phone without signal: the same as in the answer of `mix`, their "
            "{facts} open."
        ),
    ]


class PremixOut(Answer, frozen=True):
    """The other way to fill: premix and a little of one of the two."""

    premix: Exact
    concentrate: Exact
    water: Exact
    words: str


class PremixOnlyOut(Answer, frozen=True):
    """The strength that premix alone would reach."""

    percent: Exact
    protects: Exact | None
    words: str


class RemedyOut(Answer, frozen=True):
    """The litres to drain before the target can be reached, and the pure fluid to add afterwards."""

    drain_at_least: Annotated[Exact, Meta(description="In all.")]
    drain_more: Annotated[Exact, Meta(description="More than has been drained.")]
    then_fill: Exact
    fluid: Literal["concentrate", "water"]
    why: str
    words: str


class MixOut(Answer, frozen=True):
    """The filling now. Where the target is out of reach, `concentrate` and `water` are null and `remedy` is given."""

    status: Status
    words: str
    concentrate: Exact | None
    water: Exact | None
    fill: Exact
    stays: Annotated[Exact, Meta(description="The litres that stay in the circuit.")]
    residual: Exact
    after: Exact
    target: Exact
    protects: Exact | None
    protection_words: str
    premix: PremixOut | None
    premix_only: PremixOnlyOut | None
    remedy: RemedyOut | None
    how: ExplainedOut
