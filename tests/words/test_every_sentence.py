"""A walk in a pseudo language: every message is written in brackets, so that a sentence outside them is no message."""

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

import pytest
from django.apps import apps

from shop.words import say
from shop.words.catalogues import Catalogue
from shop.words.sentences import Text
from tests.api.busy import one_of_each
from tests.api.test_query_plans import PATHS, QUERIES, addresses
from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_customer_page import Phone

BEGINS, ENDS = "\u27e6", "\u27e7"
WORDS = re.compile(r"[^\W\d_]{2,} [^\W\d_]{2,}")
EDGES = " \n:.;,()\u2013"


class Bracketed(Text):
    def write(self, facts: Any) -> str:
        return f"{BEGINS}{super().write(facts)}{ENDS}"

    def readings(self) -> Iterator[str]:
        return (f"{BEGINS}{reading}{ENDS}" for reading in super().readings())


@pytest.fixture
def stage(monkeypatch: pytest.MonkeyPatch, cast: Cast) -> Stage:
    plain = Catalogue.__getitem__
    monkeypatch.setattr(Catalogue, "__getitem__", lambda self, key: Bracketed(plain(self, key).parts))
    return make_stage(cast)


def outside(text: str) -> str:
    """What stands outside all brackets."""
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
        yield from (each for inner in value.values() for each in strings(inner))
    elif isinstance(value, list | tuple):
        yield from (each for inner in value for each in strings(inner))


class Shown(HTMLParser):
    """The texts of a page that a person sees or hears."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.texts += [value for name, value in attrs if name in ("alt", "aria-label", "placeholder") and value]

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def written_by_people() -> str:
    """Every text in the rows: names, titles, and what a workshop words itself, such as its cautions."""
    rows = (row for model in apps.get_models() for row in model._default_manager.values())
    return "\n".join(text for row in rows for text in strings(dict(row)))


def not_in_the_catalogue(texts: Iterator[str]) -> set[str]:
    bare = {outside(text).strip(EDGES) for text in texts}
    people = written_by_people()
    pieces = {piece for text in bare for piece in re.split(r"[;,] |\n", text)}
    return {piece for piece in pieces if WORDS.search(piece) and piece.strip(EDGES) not in people}


def test_every_sentence_of_the_api_is_a_message(stage: Stage) -> None:
    ids, client = one_of_each(stage), stage.cast.signed_in("manager")
    asked = [
        (address, query) for path in PATHS for query in QUERIES.get(path, ({},)) for address in addresses(path, ids)
    ]
    answers = [client.get(address, query) for address, query in asked]
    written = [answer.json() for answer in answers if "json" in answer.headers.get("Content-Type", "")]
    assert sum(BEGINS in text for text in strings(written)) > 200
    assert not_in_the_catalogue(strings(written)) == set()


def test_every_sentence_of_the_customers_pages_is_a_message(stage: Stage) -> None:
    phone = Phone(stage.sent()["link"]["url"])
    unclear = phone.answer("neither")
    missing = phone.answer(name="")
    receipt = phone.client.get(phone.answer()["Location"])
    gone = phone.client.get(phone.page.replace("/q/", "/q/0"))
    pages = [phone.html, *(answer.content.decode() for answer in (unclear, missing, receipt, gone))]
    shown = [text for page in pages for text in Shown(page).texts]
    assert sum(BEGINS in text for text in shown) > 60
    assert not_in_the_catalogue(iter(shown)) == set()


def test_a_planted_sentence_is_seen(stage: Stage) -> None:
    texts = ["Nobody put this here", f"Nor this, {say('app.not_found')}", say("app.not_found"), stage.customer.name]
    assert not_in_the_catalogue(iter(texts)) == {"Nobody put this here"} | {"Nor this"}
