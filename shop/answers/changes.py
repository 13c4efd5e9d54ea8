"""The numbers by which an open screen sees that something has changed."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer
from shop.models.changes import ChangeKind


class ChangeOut(Answer, frozen=True):
    """The number of one kind of change."""

    kind: Annotated[ChangeKind, Meta(description="The change, in words.")]
    number: Annotated[int, Meta(description="It is raised with every change of this kind.")]


class ChangesOut(Answer, frozen=True):
    """The number of every kind that the role may read."""

    epoch: Annotated[int, Meta(description="It is raised when a backup is restored.")]
    number: Annotated[int, Meta(description="The sum over the kinds.")]
    kinds: Annotated[list[ChangeOut], Meta(description="Those that the role may read.")]
