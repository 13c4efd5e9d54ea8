"""The base of every answer, and the kinds of fields that need more than a type of Python's."""

from datetime import UTC, datetime
from typing import Annotated, NewType

from msgspec import Meta, Struct

_InUTC = NewType("_InUTC", datetime)
Instant = Annotated[_InUTC, Meta(tz=True)]  # written with Z; `utc` makes one
Exact = Annotated[str, Meta(extra_json_schema={"format": "decimal"})]  # an exact decimal as text, never rounded here


class Answer(Struct, frozen=True, gc=False):
    """`gc=False`: a frozen tree of texts and numbers holds no cycle, so the collector need not look at it.

    Each class says `frozen=True` itself, or mypy takes it for one that may change. Nothing is checked as one is made:
    mypy holds the fields to their types, and the tests' client every answer to the document.
    """


def utc(instant: datetime) -> Instant:
    return _InUTC(instant.astimezone(UTC))


def utc_or_none(instant: datetime | None) -> Instant | None:
    return None if instant is None else utc(instant)
