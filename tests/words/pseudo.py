"""A pseudo language: every message is written in brackets, so that a text outside them is no message."""

import json
import re
from collections import deque
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any

import pytest
from babel.dates import get_day_names, get_month_names
from django.apps import apps
from django.conf import settings
from playwright.sync_api import BrowserContext, Route

from quotes.presenters import promise_date
from shop.words.catalogues import Catalogue
from shop.words.sentences import Text

BEGINS, ENDS = "\u27e6", "\u27e7"
SENTENCE = re.compile(r"[^\W\d_]{2,} [^\W\d_]{2,}")
WORD = re.compile(r"[^\W\d_]{2,}")
EDGES = " \n:.;,()\u2013"
FIGURE = re.compile(r"[\d.,:\u2212]+")
"""Figures and days are written by CLDR, beside the messages."""

# The end of `t` in `lib/text/text.ts`, as it is built.
ENDS_OF_T = re.compile(r"(no words for.{0,40}?;return )([^;{}]+\{\}[^;{}]*\))(;?\})")


class Bracketed(Text):
    def write(self, facts: Any) -> str:
        return f"{BEGINS}{super().write(facts)}{ENDS}"

    def readings(self) -> Iterator[str]:
        return (f"{BEGINS}{reading}{ENDS}" for reading in super().readings())


def speak_on_the_server(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(promise_date, "in_words", promise_date.in_words.__wrapped__)  # none that are kept
    plain = Catalogue.__getitem__
    monkeypatch.setattr(Catalogue, "__getitem__", lambda self, key: Bracketed(plain(self, key).parts))


def speak_in_the_browser(context: BrowserContext) -> None:
    """Writes brackets around whatever `t` of the built app returns."""
    (built,) = (path for path in (settings.FRONT / "assets").glob("*.js") if ENDS_OF_T.search(path.read_text("utf-8")))
    spoken = ENDS_OF_T.sub(rf'\1"{BEGINS}"+\2+"{ENDS}"\3', built.read_text("utf-8"))

    def answer(route: Route) -> None:
        route.fulfill(body=spoken, content_type="text/javascript; charset=utf-8")

    context.route(f"**/{built.name}", answer)


def outside(text: str) -> str:
    """The text outside all brackets."""
    bare, depth = [], 0
    for letter in text:
        depth += letter == BEGINS
        if not depth:
            bare.append(letter)
        depth -= letter == ENDS
    return "".join(bare)


def strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
        if value.startswith("{"):
            yield from strings(json.loads(value))
    elif isinstance(value, dict):
        yield from (string for inner in value.values() for string in strings(inner))
    elif isinstance(value, list | tuple):
        yield from (string for inner in value for string in strings(inner))


def written_by_people() -> str:
    """Every text in the rows: names, titles, and what a workshop words itself, such as its cautions."""
    rows = (row for model in apps.get_models() for row in model._default_manager.values())
    return "\n".join(text for row in rows for text in strings(dict(row)))


def not_in_the_catalogue(texts: Iterable[str], least: re.Pattern[str] = SENTENCE) -> set[str]:
    """The pieces of these texts that are neither messages nor in the rows; `least` makes a piece worth looking at."""
    people = written_by_people()
    pieces = {_bare(piece.strip(EDGES)) for text in texts for piece in re.split(r"[;,] |\n", outside(text))}
    return {piece for piece in pieces if least.search(piece) and piece not in people}


def _bare(piece: str) -> str:
    """The text without the figures and days at its ends."""
    words = deque(piece.split())
    while words and (FIGURE.fullmatch(words[0]) or words[0] in days()):
        words.popleft()
    while words and (FIGURE.fullmatch(words[-1]) or words[-1] in days()):
        words.pop()
    return " ".join(words).strip(EDGES)


@cache
def days() -> set[str]:
    names = (get_day_names("abbreviated", locale="en_GB"), get_month_names("abbreviated", locale="en_GB"))
    return {name for names_of in names for name in names_of.values()}
