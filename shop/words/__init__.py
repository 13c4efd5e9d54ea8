"""Every sentence a person reads from the server, by key: `say("quote.sent", recipient=...)`.

The sentences stand in `words/LANGUAGE/*.ftl` of each app, in Fluent's syntax. A missing key or fact is an error,
never a hole on a screen. `shop.words.languages` holds the language, `shop.words.figures` writes numbers and days in it.
"""

from functools import cache

from shop.words.catalogues import Catalogue
from shop.words.languages import LANGUAGE, catalogue_for, language


def catalogue() -> Catalogue:
    """The catalogue of the current language."""
    return _catalogue(catalogue_for(language()) or LANGUAGE)


@cache
def _catalogue(tag: str) -> Catalogue:
    return Catalogue(tag)


def say(key: str, /, **facts: object) -> str:
    """The sentence for `key`, filled in with the facts."""
    return catalogue()[key].write(facts)


def knows(key: str) -> bool:
    return key in catalogue()


def template(key: str) -> str:
    """The sentence with its facts as {name}, to be filled in elsewhere. It must not have choices."""
    (reading,) = catalogue()[key].readings()
    return reading
