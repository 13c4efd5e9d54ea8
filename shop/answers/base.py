"""The base class of every answer, and the types of fields that need more than a type of Python's."""

from datetime import UTC, datetime
from typing import Annotated, Any, NewType, TypeVar

from django.db.models import Choices
from msgspec import Meta, Struct, convert

_InUTC = NewType("_InUTC", datetime)
Instant = Annotated[_InUTC, Meta(tz=True)]  # written with Z; `utc` makes one
Exact = Annotated[str, Meta(extra_json_schema={"format": "decimal"})]  # an exact decimal as text, never rounded here
TextId = Annotated[str, Meta(extra_json_schema={"format": "uuid"})]  # an id that a calculation carries as text


class Answer(Struct, frozen=True, gc=False):
    """Base class of the answers. `gc=False`: a frozen tree of texts and numbers holds no cycle for the collector.

    Each class says `frozen=True` itself, or mypy takes it for mutable. Construction checks nothing: mypy checks the
    types of the fields, and the tests' client checks every answer against the document.
    """


A = TypeVar("A", bound=Answer)


def utc(instant: datetime) -> Instant:
    return _InUTC(instant.astimezone(UTC))


def utc_or_none(instant: datetime | None) -> Instant | None:
    return None if instant is None else utc(instant)


def from_kept(data: Any, answer: type[A]) -> A:
    """The answer from stored plain data, such as a frozen text. Keys without a field are ignored.

    Raises msgspec.ValidationError if a field without a default is missing.
    """
    return convert(data, answer, dec_hook=_choice)


def _choice(kind: type, value: Any) -> Any:
    """Decodes a member of a Django enumeration, a type that msgspec does not know."""
    if not issubclass(kind, Choices):
        raise NotImplementedError
    return kind(value)
