"""A second language needs a folder: what it has is said in it, the rest in our own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shop.words import _catalogue, catalogues, languages, say
from shop.words.catalogues import Catalogue, messages_of
from shop.words.languages import LANGUAGE, PROJECT, catalogue_for, speaking, usable
from shop.words.parsing import parse

SECOND = "pl-PL"
TWO_KEYS = """
app-not_found = Tu niczego nie ma
readiness-days =
    { $n ->
        [one] { $n } dzie\u0144
        [few] { $n } dni
       *[other] { $n } dnia
    }
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A project with our own catalogues and a second language of two keys."""
    for app in ("shop", "kitting", "quotes"):
        (tmp_path / app / "words").mkdir(parents=True)
        (tmp_path / app / "words" / LANGUAGE).symlink_to(PROJECT / app / "words" / LANGUAGE)
    second = tmp_path / "shop" / "words" / SECOND
    second.mkdir()
    (second / "app.ftl").write_text(TWO_KEYS, "utf-8")
    functions = (_catalogue, catalogue_for, usable)
    for module in (catalogues, languages):
        monkeypatch.setattr(module, "PROJECT", tmp_path)
    for function in functions:
        function.cache_clear()
    yield second
    for function in functions:
        function.cache_clear()


def test_what_the_language_has_is_said_in_it() -> None:
    with speaking("pl"):
        assert say("app.not_found") == "Tu niczego nie ma"
        assert [say("readiness.days", n=n) for n in (1, 22, 25)] == ["1 dzie\u0144", "22 dni", "25 dnia"]


def test_what_it_lacks_is_said_in_our_own() -> None:
    own = say("readiness.complete")
    with speaking(SECOND):
        assert say("readiness.complete") == own
        assert {*Catalogue(SECOND)} == {*Catalogue(LANGUAGE)}


def test_what_is_said_in_our_own_is_counted_as_ours_counts(folder: Path) -> None:
    """Latvian counts 21 like 1; an English sentence that Latvian lacks must not."""
    (folder.parent / "lv-LV").mkdir()
    (folder.parent / "lv-LV" / "app.ftl").write_text("app-not_found = Te nek\u0101 nav\n", "utf-8")
    own = say("promise.headline.unknown", n=21, when="-")
    with speaking("lv-LV"):
        assert say("promise.headline.unknown", n=21, when="-") == own


def test_a_reader_of_our_own_language_hears_nothing_of_it() -> None:
    with speaking("en-US", SECOND):
        assert say("readiness.days", n=3) == "3 days"


def strangers(language: str) -> list[str]:
    """Messages of a language that our own does not have, and facts that nobody gives to theirs."""
    catalogue = Catalogue(LANGUAGE)
    messages = {key: parse(message) for key, message in messages_of(language).items()}
    return [
        key
        for key, text in messages.items()
        if key not in catalogue or not {*text.facts()} <= {*catalogue[key].facts()}
    ]


def test_its_keys_and_facts_are_those_of_our_own(folder: Path) -> None:
    assert strangers(SECOND) == []
    (folder / "more.ftl").write_text("app-nothing_of_ours = A\nreadiness-complete = { $n }\n", "utf-8")
    assert strangers(SECOND) == ["app-nothing_of_ours", "readiness-complete"]


def test_so_it_is_in_every_language_of_the_project(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogues, "PROJECT", PROJECT)
    tags = {path.name for path in PROJECT.glob("*/words/*-*") if path.is_dir()}
    assert LANGUAGE in tags
    assert {tag: strangers(tag) for tag in tags if strangers(tag)} == {}
