"""Suppliers, and what is remembered about their files. Prices and costs are not among it."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.models.parts import About
from shop.answers.base import Answer
from shop.tables.registry import kinds


class SupplierRowOut(Answer, frozen=True):
    """A supplier in the list."""

    id: UUID
    name: str
    contact: Annotated[str, Meta(description="The person to ask, and how; empty where none is recorded.")]
    currency: Annotated[str, Meta(description="The currency of its prices, in three letters.")]
    lead_days: Annotated[
        int | None,
        Meta(description="Calendar days from the order until it comes, where an offer names none; null if not known."),
    ]
    archived: Annotated[bool, Meta(description="True: it is not offered any more.")]
    version: int


class MemoryOut(Answer, frozen=True):
    """One thing that is remembered about the supplier's files."""

    key: Annotated[str, Meta(description="It names this memory while it stays the same.")]
    kind: Annotated[str, Meta(description="The kind of file.", extra_json_schema={"enum": sorted(kinds())})]
    about: Annotated[About, Meta(description="A heading, an answer, a fact of the file, a text, or a row.")]
    name: Annotated[str, Meta(description="The field in words, or a question without a sentence; else empty.")]
    was: Annotated[str, Meta(description="The text in the file; empty for an answer or a fact.")]
    text: Annotated[str, Meta(description="The way it is read, an answer as a sentence; empty for a heading or a row.")]


class SupplierOut(SupplierRowOut, frozen=True):
    """A supplier with all that is remembered about its files."""

    memories: Annotated[list[MemoryOut], Meta(description="By kind of file.")]
