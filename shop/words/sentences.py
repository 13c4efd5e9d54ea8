"""Sentences made of Fluent messages: texts, facts and choices.

A message may hold text, quoted text (`{ " " }`), facts (`{ $name }`) and choices by a fact, one inside another.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from shop.words.figures import figure
from shop.words.languages import language


@dataclass(frozen=True, slots=True)
class Fact:
    """A named value that the caller of the sentence provides."""

    name: str

    def write(self, facts: Mapping[str, object]) -> str:
        """A whole number with its separators; any other fact unchanged."""
        fact = facts[self.name]
        if isinstance(fact, int):
            return figure(str(fact)) if fact > 999 else str(fact)
        return fact if isinstance(fact, str) else str(fact)


@dataclass(frozen=True, slots=True)
class Selector:
    """One of several texts, by a fact: an exact number or a code first, then the plural category of a number.

    `language` has the plural categories: ours, where the reader's language lacks the sentence.
    """

    fact: str
    variants: Mapping[str, "Text"]
    default: "Text"
    language: str

    def write(self, facts: Mapping[str, object]) -> str:
        fact = str(facts[self.fact])
        chosen = self.variants.get(fact) or self.variants.get(
            plural_category(fact, language(), self.language), self.default
        )
        return chosen.write(facts)


@lru_cache(maxsize=1000)
def plural_category(written: str, spoken: str, counted: str) -> str:
    """CLDR's zero, one, two, few, many or other in the language `counted`.

    The number is as the language `spoken` writes it: 1.0 is not 1.
    """
    from babel import Locale  # takes 20 ms with its data, and only a choice needs it
    from babel.numbers import NumberFormatError, parse_decimal

    try:
        return Locale.parse(counted, sep="-").plural_form(parse_decimal(written, Locale.parse(spoken, sep="-")))
    except NumberFormatError:
        return "other"


@dataclass(frozen=True, slots=True)
class Text:
    """A row of texts, facts and choices."""

    parts: tuple[str | Fact | Selector, ...]

    def write(self, facts: Mapping[str, object]) -> str:
        return "".join([part if isinstance(part, str) else part.write(facts) for part in self.parts])

    def facts(self) -> Iterator[str]:
        """The names of the facts that the sentence may ask for."""
        for part in self.parts:
            if isinstance(part, Fact):
                yield part.name
            elif isinstance(part, Selector):
                yield part.fact
                for variant in (*part.variants.values(), part.default):
                    yield from variant.facts()

    def readings(self) -> Iterator[str]:
        """Every way the sentence can read, with each fact as {name}."""
        if not self.parts:
            yield ""
            return
        first, rest = self.parts[0], Text(self.parts[1:])
        for beginning in _readings(first):
            for end in rest.readings():
                yield beginning + end


def _readings(part: str | Fact | Selector) -> Iterator[str]:
    if isinstance(part, str):
        yield part
    elif isinstance(part, Fact):
        yield f"{{{part.name}}}"
    else:
        for variant in (*part.variants.values(), part.default):
            yield from variant.readings()
