"""A quote of the shop as the example of what a change in the office does."""

from typing import Any, NamedTuple
from uuid import UUID

from quotes import access
from quotes.answers.newer_rules import ExampleQuoteOut
from quotes.models import Line, Revision
from shop.access import Actor
from shop.words import say


class Example(NamedTuple):
    """The current revision of the example, None in a shop without quotes, and the quotes to choose from."""

    revision: Revision | None
    choices: list[ExampleQuoteOut]


def example_of(actor: Actor, chosen: UUID | None) -> Example:
    """The chosen quote as the example, else the newest one. 404 for another shop's."""
    rows = list(access.example_quotes(actor))
    quote = access.quote(actor, chosen) if chosen else rows[0].quote if rows else None
    choices = [ExampleQuoteOut(row.quote_id, _title(row)) for row in rows]
    return Example(access.current(quote) if quote else None, choices)


def _title(row: Any) -> str:
    """'Q-27, Ines Marrow: Big-brake kit'"""
    kits = [line.title for line in row.lines.all() if line.kind == Line.Kind.KIT]
    who = ", ".join(part for part in (str(row.quote), row.quote.customer and row.quote.customer.name) if part)
    return say("rules_example.choice", quote=who, kits=", ".join(kits)) if kits else who
