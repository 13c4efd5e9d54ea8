"""The log of a pull list, as phones send to it and pull it."""

from typing import Annotated, Any
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from kitting.calc.observation import EventProblem, Outcome
from kitting.models.pulling import PullListState
from shop.answers.base import Answer, Instant


class ResultOut(Answer, frozen=True):
    """The result of one event. The server keeps every event that it does not reject."""

    id: Annotated[str | None, Meta(description="The event's, as it was sent.")]
    status: Annotated[Outcome, Meta(description="The state that it has reached.")]
    seq: Annotated[int | None, Meta(description="Its place in the log.")]
    problem: Annotated[EventProblem | None, Meta(description="The reason for rejecting it.")]


class ResultsOut(Answer, frozen=True):
    """The results of a batch, in its order."""

    results: Annotated[list[ResultOut], Meta(description="One for each event.")]


class CountEventOut(Answer, frozen=True):
    """One place in the list's log. An event of a newer phone has the further fields that were sent with it."""

    v: Annotated[int, Meta(description="The version of the event's form.")]
    id: Annotated[UUID, Meta(description="The event's, made by the phone.")]
    list: Annotated[UUID, Meta(description="The id of the pull list.")]
    line: UUID
    kind: Annotated[str, Meta(description="set, add, undo or note; a newer phone may send others.")]
    total: Annotated[int | None, Meta(description="The pieces in the place; null for an event that counts none.")]
    damaged: Annotated[int | None, Meta(description="The damaged ones of them; null for an event that counts none.")]
    target: Annotated[UUID | None, Meta(description="The event that is undone.")]
    device: Annotated[UUID, Meta(description="The id that the phone has given itself.")]
    n: Annotated[int, Meta(description="The number of the event on its device.")]
    epoch: Annotated[int, Meta(description="Of the log, as the phone knew it.")]
    seen: Annotated[int, Meta(description="The last place in the log that was on the phone's screen.")]
    made_at: Annotated[Instant, Meta(description="By the phone's clock.")]
    how: Annotated[str | None, Meta(description="counted, seen, sealed or weighed; a newer phone may send others.")]
    note: Annotated[
        dict[str, Any] | str | None, Meta(description="The remark besides the count, as the phone wrote it.")
    ]
    author: Annotated[UUID, Meta(description="The id of the member.")]
    author_name: Annotated[str, Meta(description="The member's name.")]
    seq: Annotated[int, Meta(description="Its place in the log.")]
    late: Annotated[bool, Meta(description="It came after closing.")]


class EventsOut(Answer, frozen=True):
    """The next events of the log."""

    events: Annotated[list[CountEventOut], Meta(description="In the order of the log.")]
    more: Annotated[bool, Meta(description="Whether there is more to pull.")]
    seq: int
    epoch: int
    state: Annotated[PullListState, Meta(description="Of the pull list.")]
    digest: Annotated[
        str | UnsetType, Meta(description="Of the fold at `seq`; only when there is no more to pull.")
    ] = UNSET
