"""Parts whose number another one replaces."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer


class ReplacedNumberOut(Answer, frozen=True):
    """A part that another one replaces."""

    id: UUID
    number: Annotated[str, Meta(description="The number of the part that is replaced.")]
    title: str
    newer: Annotated[str, Meta(description="The number of the part that replaces it.")]
    newer_title: Annotated[str, Meta(description="The name of the part that replaces it.")]
