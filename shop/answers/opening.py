"""The choices of the form that opens the first shop."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer


class PresetOut(Answer, frozen=True):
    """Price rules to begin with."""

    name: Annotated[str, Meta(description="The preset in the request that opens the shop.")]
    title: Annotated[str, Meta(description="The preset in words.")]
    words: Annotated[str, Meta(description="The workshop that it suits, and the rules that it holds.")]


class LanguageOut(Answer, frozen=True):
    """A language of screens and papers, in a country whose numbers and dates it writes."""

    tag: Annotated[str, Meta(description="The language as a tag of BCP 47.")]
    title: Annotated[str, Meta(description="The language and its country, in that language.")]


class OpeningOut(Answer, frozen=True):
    """The choices of the form that opens the first shop of an installation without one."""

    presets: Annotated[list[PresetOut], Meta(description="Price rules to begin with, the plainest first.")]
    languages: Annotated[list[LanguageOut], Meta(description="The languages that the server speaks.")]
