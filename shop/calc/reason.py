"""The reason for a figure: a stable code and its facts. The presenters word it."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

Fact = str | int | Decimal | tuple[str, ...]
Facts = dict[str, Any]  # by name; the code of their reason says which kind each of them has


@dataclass(frozen=True, slots=True)
class Reason:
    """A code with facts: (name, value) pairs in the order of a sentence."""

    code: str
    facts: tuple[tuple[str, Fact], ...]

    @classmethod
    def of(cls, code: str, **facts: Fact) -> "Reason":
        return cls(code, tuple(facts.items()))

    @property
    def named(self) -> dict[str, Fact]:
        return dict(self.facts)
