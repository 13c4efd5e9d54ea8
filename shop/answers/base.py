"""The base of every answer, and the kinds of fields that need more than a type of Python's."""

from datetime import UTC, datetime
from typing import Annotated, Any, NewType, TypeVar

from django.db.models import Choices
from msgspec import Meta, Struct, convert

_InUTC = NewType("_InUTC", datetime)
Instant = Annotated[_InUTC, Meta(tz=True)]  # written with Z; `utc` makes one
Exact = Annotated[str, Meta(extra_json_schema={"format": "decimal"})]  # an exact decimal as text, never rounded here
TextId = Annotated[str, Meta(extra_json_schema={"format": "uuid"})]  # an id that a calculation carries as text


class Answer(Struct, frozen=True, gc=False):
    """`gc=False`: a frozen tree of texts and numbers holds no cycle, so the collector need not look at it.

    Each class says `frozen=True` itself, or mypy takes it for one that may change. Nothing is checked as one is made:
    mypy holds the fields to their types, and the tests' client every answer to the document.
    """


A = TypeVar("A", bound=Answer)


def utc(instant: datetime) -> Instant:
    return _InUTC(instant.astimezone(UTC))


def utc_or_none(instant: datetime | None) -> Instant | None:
    return None if instant is None else utc(instant)


def from_kept(data: Any, answer: type[A]) -> A:
    """The answer in plain data that was kept, such as a frozen text; what the answer has no field for is left out.

    Raises msgspec.ValidationError where a field is missing that has no default.
    """
    return convert(data, answer, dec_hook=_choice)


def _choice(kind: type, value: Any) -> Any:
    """A member of one of Django's enumerations, which msgspec does not know as its own."""
    if not issubclass(kind, Choices):
        raise NotImplementedError
    return kind(value)
