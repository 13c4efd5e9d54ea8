"""Days and numbers are written in the reader's language, as far as its sentences can be read."""

from datetime import date

import pytest
from django.test import Client

from quotes.calc.forms import read_text
from quotes.models import Decision, Revision
from shop.models import Customer, Member, Shop
from shop.words import say
from shop.words.figures import day, day_of_month, day_with_year, figure, listed, weekday
from shop.words.languages import LANGUAGE, language, speak, speaking, spoken, usable
from tests.cast import Cast
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

SEPTEMBER = date(2026, 9, 2)


def test_days_are_written_as_the_language_writes_them() -> None:
    assert (day(SEPTEMBER), day_with_year(SEPTEMBER)) == ("Wed 2 Sept", "Wed 2 Sept 2026")
    assert (day_of_month(SEPTEMBER), weekday(SEPTEMBER)) == ("2 Sept", "Wed")
    with speaking("en-US"):
        assert (day(SEPTEMBER), day_with_year(SEPTEMBER)) == ("Wed Sep 2", "Wed Sep 2, 2026")


@pytest.mark.parametrize(
    ("amount", "words"),
    [
        ("0", "0"),
        ("999", "999"),
        ("15608.40", "15,608.40"),
        ("-1234567.2500", "\u22121,234,567.2500"),
        ("0.00", "0.00"),
    ],
)
def test_a_figure_keeps_every_digit(amount: str, words: str) -> None:
    assert figure(amount) == words


def test_a_figure_has_the_signs_of_its_language() -> None:
    with speaking("en-ZA"):
        assert figure("15608.40") == "15\u00a0608,40"


def test_whole_numbers_in_a_sentence_have_their_separators() -> None:
    assert say("promise.minutes", n=1200) == "1,200 min"


def test_lists_are_joined_by_the_language() -> None:
    assert listed(["labour"]) == "labour"
    assert listed(["labour", "fabrication", "fees"]) == "labour, fabrication and fees"
    assert listed(["manual", "automatic"], choice=True) == "manual or automatic"
    assert listed(["engine oil, 5W-30", "grease"]) == "engine oil, 5W-30; grease"


def test_a_language_without_sentences_is_not_spoken() -> None:
    """1.500 in an English sentence would be read as one and a half."""
    assert usable("de-AT", "en-US") == "en-US"
    assert usable("de-AT") == usable("") == usable("xx") == usable("en-XQ") == LANGUAGE


def test_the_languages_to_choose_from_are_written_in_their_usual_script() -> None:
    tags = {tag for tag, _ in spoken()}
    assert {"en-GB", "en-AT", "en-001"} <= tags and tags.isdisjoint({"en-Dsrt-US", "en-Shaw-GB"})


def test_a_language_ends_with_what_it_was_spoken_for() -> None:
    with speaking("en-GB"):
        speak("en-US")
        assert language() == "en-US"
    assert language() == LANGUAGE


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def test_a_member_reads_in_their_own_language_or_the_shops(stage: Stage) -> None:
    address = f"quotes/{stage.quote().json()['id']}"

    def why() -> str:
        return str([kit["why"] for kit in stage.client.get(address).json()["kits"]])

    british = why()
    Shop.objects.update(language="en-US")
    assert why() != british
    Member.objects.update(language="en-GB")
    assert why() == british


def test_a_customer_reads_in_theirs(stage: Stage) -> None:
    Customer.objects.filter(pk=stage.customer.pk).update(language="en-US")
    phone = Phone(stage.sent()["link"]["url"])
    assert '<html lang="en-US">' in phone.html


def test_the_page_of_a_dead_link_speaks_the_shops_language(stage: Stage) -> None:
    """The language is neither our own nor the customer's, which would disclose the customer."""
    Shop.objects.update(language="en-ZA")
    Customer.objects.filter(pk=stage.customer.pk).update(language="en-US")
    address = stage.sent()["link"]["url"]
    assert '<html lang="en-ZA">' in Client().get(f"{address[:-3]}xyz").content.decode()


def test_a_sent_text_says_in_which_language_its_words_are(stage: Stage) -> None:
    """The customer's page keeps to it; the record of the answer says it of the words that were shown."""
    Customer.objects.filter(pk=stage.customer.pk).update(language="en-US")
    phone = Phone(stage.sent()["link"]["url"])
    Customer.objects.filter(pk=stage.customer.pk).update(language="en-GB")
    assert read_text(Revision.objects.get().snapshot)["language"] == "en-US"
    assert '<html lang="en-US">' in phone.client.get(phone.page).content.decode()
    phone.answer()
    assert Decision.objects.get().record["language"] == "en-US"
