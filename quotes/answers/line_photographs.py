"""The photographs of a quote's lines."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer


class LinePhotographOut(Answer, frozen=True):
    """A photograph of what a line is about."""

    id: UUID
    line: Annotated[UUID, Meta(description="The id of the line.")]
    caption: Annotated[str, Meta(description="The words under it, which the customer reads too.")]
    shown: Annotated[bool, Meta(description="The customer sees it on the link.")]
    width: Annotated[int, Meta(description="Pixels of the picture that is shown.")]
    height: Annotated[int, Meta(description="Pixels of the picture that is shown.")]
