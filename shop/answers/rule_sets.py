"""The shop's price rules: every set, its figures with what they do, and the difference to the set before."""

from datetime import date
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.calc.rule_fields import Kind

RuleSetState = Literal["in_force", "later", "replaced"]
SectionCode = Literal["labour", "parts", "charges", "taxes", "quote", "money", "workshop"]


class RuleChoiceOut(Answer, frozen=True):
    """A value that a figure may have."""

    value: Annotated[str, Meta(description="As a request names it.")]
    title: str


class RuleColumnOut(Answer, frozen=True):
    """A column of a table of figures."""

    name: Annotated[str, Meta(description="The key of the column in a row.")]
    title: str
    kind: Annotated[Kind, Meta(description="The kind of its texts.")]
    choices: Annotated[list[RuleChoiceOut], Meta(description="The values that it may have; empty for any.")]


class RuleFieldOut(Answer, frozen=True):
    """A figure of the price rules, or a table of figures."""

    path: Annotated[str, Meta(description="The key of the figure, such as supplies.rate.")]
    title: str
    words: Annotated[str, Meta(description="One sentence about the use of the figure.")]
    kind: Annotated[Kind, Meta(description="The kind of its text.")]
    value: Annotated[str, Meta(description="As it is typed; empty for a table and where it is not set.")]
    shown: Annotated[str, Meta(description="As it is read, with its unit.")]
    choices: Annotated[list[RuleChoiceOut], Meta(description="The values that it may have; empty for any.")]
    columns: Annotated[list[RuleColumnOut], Meta(description="Of a table; empty for a single figure.")]
    rows: Annotated[list[dict[str, str]], Meta(description="Of a table: {column: text as it is typed}.")]


class RuleSectionOut(Answer, frozen=True):
    """A section of the price rules."""

    code: SectionCode
    title: str
    words: Annotated[str, Meta(description="One sentence about the section.")]
    fields: Annotated[list[RuleFieldOut], Meta(description="In the order of the screen.")]


class RuleChangeOut(Answer, frozen=True):
    """A figure that differs between two sets."""

    path: Annotated[str, Meta(description="The key of the figure.")]
    title: Annotated[str, Meta(description="The figure, with its row and column in a table.")]
    before: Annotated[str | None, Meta(description="Null where it is new.")]
    after: Annotated[str | None, Meta(description="Null where it was taken away.")]


class RuleSetRowOut(Answer, frozen=True):
    """A set of price rules in the list of sets."""

    id: UUID
    number: Annotated[int, Meta(description="In the order in which the sets were written.")]
    title: str
    valid_from: date
    state: Annotated[RuleSetState, Meta(description="In force today, later, or replaced by another.")]
    by: Annotated[str | None, Meta(description="The person who wrote it; null for a command of the server.")]
    added_at: Annotated[Instant | None, Meta(description="The time at which it was written, where it was recorded.")]
    words: Annotated[list[str], Meta(description="The first few of its changes.")]


class RuleSetOut(RuleSetRowOut, frozen=True):
    """A set of price rules with every figure."""

    sections: Annotated[list[RuleSectionOut], Meta(description="All figures.")]
    changes: Annotated[list[RuleChangeOut], Meta(description="Its differences from the set before it by number.")]
    before: Annotated[UUID | None, Meta(description="The set before it by number; null for the first.")]
