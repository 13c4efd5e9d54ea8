"""The steps from an empty shop to its first quote."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer

StepCode = Literal["hours", "rates", "taxes", "people", "kit", "labour", "quote"]
StartState = Literal["done", "next", "open", "later"]


class StartStepOut(Answer, frozen=True):
    """A step of the guided start."""

    code: Annotated[StepCode, Meta(description="The step.")]
    title: Annotated[str, Meta(description="The step in words.")]
    words: Annotated[str, Meta(description="The reason for the step.")]
    example: Annotated[str, Meta(description="An example of what to enter.")]
    state: Annotated[StartState, Meta(description="Done by what the shop has; later where a manager left it.")]


class StartOut(Answer, frozen=True):
    """The guided start of a shop."""

    done: Annotated[int, Meta(description="The number of steps that are done.")]
    finished: Annotated[bool, Meta(description="Every step is done.")]
    steps: Annotated[list[StartStepOut], Meta(description="In the order in which they are best done.")]
