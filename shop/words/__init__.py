"""Every sentence a person reads from the server, by key: `say("quote.sent", recipient=...)`.

The sentences stand in `words/LANGUAGE/*.ftl` of each app, in Fluent's syntax. A missing key or fact is an error,
never a hole on a screen.
"""

from functools import cache

from shop.words.catalogues import Catalogue

LANGUAGE = "en-GB"


@cache
def catalogue() -> Catalogue:
    return Catalogue(LANGUAGE)


def say(key: str, /, **facts: object) -> str:
    """The sentence with its facts."""
    return catalogue()[key].write(facts, LANGUAGE)


def knows(key: str) -> bool:
    return key in catalogue()


def template(key: str) -> str:
    """The sentence with its facts open, as {name}: for whoever fills it in elsewhere. It must not have choices."""
    (reading,) = catalogue()[key].readings()
    return reading
