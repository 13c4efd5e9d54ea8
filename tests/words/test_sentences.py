"""Fluent as both halves read it: the same cases run in the front end (`src/lib/text/text.test.ts`)."""

import json
from decimal import Decimal
from typing import Any

import pytest
from django.conf import settings
from fluent.runtime import FluentBundle, FluentResource

from shop.words import catalogue, template
from shop.words.parsing import IllFormedError, parse
from shop.words.sentences import plural_category

CASES = json.loads((settings.BASE_DIR / "fixtures" / "sentences.json").read_text("utf-8"))
GOOD = [case for case in CASES if "says" in case]
REFUSED = [case["message"] for case in CASES if "refused" in case]


@pytest.mark.parametrize("case", GOOD, ids=lambda case: case["says"])
def test_a_message_becomes_its_sentence(case: Any) -> None:
    assert parse(case["message"]).write(case["facts"]) == case["says"]


@pytest.mark.parametrize("message", REFUSED)
def test_what_the_two_halves_do_not_share_is_refused(message: str) -> None:
    with pytest.raises(IllFormedError):
        parse(message)


def bundle(source: str) -> FluentBundle:
    bundle = FluentBundle(["en-GB"], use_isolating=False)
    bundle.add_resource(FluentResource(source))
    return bundle


def oracle_text(by: FluentBundle, identifier: str, facts: dict[str, Any]) -> str:
    pattern = by.get_message(identifier).value
    assert pattern is not None
    text, errors = by.format_pattern(pattern, facts)
    assert errors == []
    return text


def test_every_sentence_reads_as_the_library_of_the_standard_reads_it() -> None:
    oracle = bundle("\n".join(catalogue().messages.values()))
    for identifier, text in catalogue().items():
        for number in (1, 2):
            facts = {name: number if name == "n" else f"({name})" for name in text.facts()}
            assert text.write(facts) == oracle_text(oracle, identifier, facts), identifier


def test_a_missing_fact_is_an_error() -> None:
    with pytest.raises(KeyError, match="name"):
        parse("a = { $name }").write({})


def test_a_sentence_knows_its_facts_and_each_way_it_can_read() -> None:
    text = parse("a =\n    { $n ->\n        [one] one { $thing }\n       *[other] { $n } { $thing }s\n    }")
    assert {*text.facts()} == {"n", "thing"}
    assert [*text.readings()] == ["one {thing}", "{n} {thing}s"]


def test_open_facts_are_only_for_sentences_without_a_choice() -> None:
    assert template("mix.fill") == "Add {concentrate} L of concentrate and {water} L of water."
    with pytest.raises(ValueError, match="too many values"):
        template("promise.headline.unknown")


@pytest.mark.parametrize(
    ("figure", "language", "category"),
    [
        ("1", "en-GB", "one"),
        ("1.0", "en-GB", "other"),
        ("1,000", "en-GB", "other"),
        ("a few", "en-GB", "other"),
        ("2", "pl", "few"),
        ("5", "pl", "many"),
        ("1,5", "pl", "other"),
    ],
)
def test_a_figure_has_the_plural_category_of_its_language(figure: str, language: str, category: str) -> None:
    assert plural_category(figure, language, language) == category


def test_a_decimal_given_as_a_fact_is_written_in_full() -> None:
    assert parse("a = { $n } L").write({"n": Decimal("1.2345")}) == "1.2345 L"
