"""The log of a pull list, as phones send to it and pull it."""

from typing import Annotated, Any
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from kitting.calc.observation import Outcome
from kitting.models.pulling import PullListState
from shop.answers.base import Answer, Instant


class ResultOut(Answer, frozen=True):
    """The result of one event. The server keeps every event that it does not reject."""

    id: Annotated[str | None, Meta(description="The event's, as it was sent.")]
    status: Outcome
    seq: Annotated[int | None, Meta(description="Its place in the log.")]
    problem: Annotated[str | None, Meta(description="Why it is rejected.")]


class ResultsOut(Answer, frozen=True):
    """The results of a batch, in its order."""

    results: list[ResultOut]


class CountEventOut(Answer, frozen=True):
    """One place in the list's log. An event of a newer phone has the further fields that were sent with it."""

    v: Annotated[int, Meta(description="The version of the event's form.")]
    id: UUID
    list: UUID
    line: UUID
    kind: Annotated[str, Meta(description="set, add, undo or note; a newer phone may send others.")]
    total: int | None
    damaged: int | None
    target: Annotated[UUID | None, Meta(description="The event that is undone.")]
    device: UUID
    n: Annotated[int, Meta(description="The number of the event on its device.")]
    epoch: int
    seen: Annotated[int, Meta(description="The last place in the log that was on the phone's screen.")]
    made_at: Annotated[Instant, Meta(description="By the phone's clock.")]
    how: str | None
    note: Any
    author: UUID
    author_name: str
    seq: int
    late: Annotated[bool, Meta(description="It came after closing.")]


class EventsOut(Answer, frozen=True):
    """The next events of the log."""

    events: list[CountEventOut]
    more: Annotated[bool, Meta(description="Whether there is more to pull.")]
    seq: int
    epoch: int
    state: PullListState
    digest: Annotated[
        str | UnsetType, Meta(description="Of the fold at `seq`; only when there is no more to pull.")
    ] = UNSET
