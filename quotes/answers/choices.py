"""The choices that a quote leaves to the customer."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer, Exact, TextId

ChosenKind = Literal["kit", "part", "text", "outside", "labour"]
Take = Literal["one", "any"]


class OptionLineOut(Answer, frozen=True):
    """A line of the draft that belongs to an option."""

    line: TextId
    kind: Annotated[
        ChosenKind,
        Meta(description="A kit, a loose part, a line written by hand, outside work, or labour."),
    ]
    title: str
    quantity: Exact


class OptionOut(Answer, frozen=True):
    """An option, with what it changes as the rest of the quote is shown."""

    id: TextId
    title: str
    preselected: Annotated[bool, Meta(description="The workshop proposes it.")]
    taken: Annotated[
        bool, Meta(description="The total that is shown has it: the workshop proposes it, or the customer accepted it.")
    ]
    gross: Annotated[
        Exact | None, Meta(description="The change of the total; null while choices make too many prices.")
    ]
    hours: Annotated[Exact | None, Meta(description="The change of the hours.")]
    price: Annotated[str, Meta(description="The change of the total in words.")]
    why: Annotated[list[str], Meta(description="Changes of hours and date in words.")]
    lines: Annotated[list[OptionLineOut], Meta(description="Empty for a sent version.")]


class ChoiceOut(Answer, frozen=True):
    """A choice with its options in their order."""

    id: TextId
    title: str
    take: Annotated[Take, Meta(description="Exactly one option, or any number of them.")]
    options: Annotated[list[OptionOut], Meta(description="In their order.")]
