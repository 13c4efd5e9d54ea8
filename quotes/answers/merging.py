"""Two records of one customer, and what would move from one to the other."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer


class CustomerMergeOut(Answer, frozen=True):
    """The consequences of putting two records together."""

    other: Annotated[UUID, Meta(description="The id of the record that would go.")]
    version: Annotated[int, Meta(description="Of the record that stays.")]
    other_version: Annotated[int, Meta(description="Of the record that would go.")]
    words: Annotated[str, Meta(description="The rows that move, in one sentence.")]
    fields: Annotated[list[str], Meta(description="Sentences on what the record that stays takes over or leaves.")]
