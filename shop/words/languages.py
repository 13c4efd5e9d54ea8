"""The language of what is being answered: the reader's, else the workshop's, as far as there is a catalogue for it."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from pathlib import Path

LANGUAGE = "en-GB"
"""In which every sentence is written first."""

PROJECT = Path(__file__).resolve().parents[2]
_language = ContextVar("language", default=LANGUAGE)


def language() -> str:
    """Of the sentences that are written now, and of their days and numbers."""
    return _language.get()


@contextmanager
def speaking(*tags: str) -> Iterator[None]:
    """Sentences are in the first of these languages that there is a catalogue for; empty ones are passed over."""
    token = _language.set(usable(*tags))
    try:
        yield
    finally:
        _language.reset(token)


def speak(*tags: str) -> None:
    """From here on, until the `speaking` around it ends: for whoever learns the reader only on the way."""
    _language.set(usable(*tags))


@cache
def usable(*tags: str) -> str:
    """The first tag whose language has a catalogue, with its own region's numbers and days; else that of the sentences.

    A language without a catalogue gives nothing: 1.500 in an English sentence is not fifteen hundred.
    """
    return next((tag for tag in tags if tag and catalogue_for(tag) and _is_known(tag)), LANGUAGE)


@cache
def catalogue_for(tag: str) -> str | None:
    """The tag of the catalogue for a language: its own, else the first of the same language."""
    catalogues = sorted({path.name for path in PROJECT.glob("*/words/*-*") if path.is_dir()})
    same_language = (other for other in catalogues if other.split("-")[0] == tag.split("-")[0])
    return tag if tag in catalogues else next(same_language, None)


def _is_known(tag: str) -> bool:
    """Whether CLDR knows the language in that region."""
    if tag == LANGUAGE:
        return True
    from babel import Locale, UnknownLocaleError

    try:
        Locale.parse(tag, sep="-")
    except UnknownLocaleError:
        return False
    return True
