"""The language of the current answer: the reader's, else the workshop's, if there is a catalogue for it."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from pathlib import Path

from shop.language_tags import is_language_tag

LANGUAGE = "en-GB"
"""The language in which every sentence is written first."""

PROJECT = Path(__file__).resolve().parents[2]
_language = ContextVar("language", default=LANGUAGE)


def language() -> str:
    """The tag of the current language, for sentences, days and numbers."""
    return _language.get()


@contextmanager
def speaking(*tags: str) -> Iterator[None]:
    """Sets the current language inside the block: the first of these with a catalogue. Empty tags are ignored."""
    token = _language.set(usable(*tags))
    try:
        yield
    finally:
        _language.reset(token)


def speak(*tags: str) -> None:
    """Sets the current language until the surrounding `speaking` ends, once the reader is known."""
    _language.set(usable(*tags))


@cache
def usable(*tags: str) -> str:
    """The first tag whose language has a catalogue, with its region for numbers and days; else LANGUAGE.

    A language without a catalogue is ignored for numbers too: 1.500 in an English sentence is not fifteen hundred.
    """
    return next((tag for tag in tags if tag and catalogue_for(tag) and _is_known(tag)), LANGUAGE)


@cache
def catalogue_for(tag: str) -> str | None:
    """The tag of the catalogue for a language: its own, else the first of the same language."""
    catalogues = sorted({path.name for path in PROJECT.glob("*/words/*-*") if path.is_dir()})
    same_language = (other for other in catalogues if other.split("-")[0] == tag.split("-")[0])
    return tag if tag in catalogues else next(same_language, None)


@cache
def spoken() -> tuple[tuple[str, str], ...]:
    """(tag, name in its own language) of every language and country that has a catalogue, by name.

    Those in a script of their own are left out: our sentences stand in the usual one.
    """
    from babel import Locale
    from babel.localedata import locale_identifiers

    locales = [Locale.parse(name) for name in locale_identifiers() if catalogue_for(name.replace("_", "-"))]
    usual = [locale for locale in locales if locale.territory and not locale.script]
    named = [(str(locale).replace("_", "-"), locale.get_display_name() or "") for locale in usual]
    return tuple(sorted((row for row in named if is_language_tag.regex.match(row[0])), key=lambda row: row[1]))  # type: ignore[union-attr]


def _is_known(tag: str) -> bool:
    """Returns whether CLDR knows the language in that region."""
    if tag == LANGUAGE:
        return True
    from babel import Locale, UnknownLocaleError

    try:
        Locale.parse(tag, sep="-")
    except UnknownLocaleError:
        return False
    return True
