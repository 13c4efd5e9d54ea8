"""A walk in the pseudo language over every GET and the customer's pages: no sentence stands outside its brackets.

The screens of the app are walked by `tests/browser/test_screens.py`.
"""

from html.parser import HTMLParser

import pytest

from shop.words import say
from tests.api.samples import one_of_each
from tests.api.test_query_plans import PATHS, QUERIES, addresses
from tests.cast import Cast
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage
from tests.words.pseudo import BEGINS, WORD, not_in_the_catalogue, speak_on_the_server, strings

pytestmark = pytest.mark.once

NOT_IN_THE_CATALOGUE = {
    "holidays",  # countries are named by Babel, their holidays by `holidays`
    "lists/headings",  # headings and cells as they stand in files; test_headings.py holds their meanings to messages
}


@pytest.fixture
def stage(monkeypatch: pytest.MonkeyPatch, cast: Cast) -> Stage:
    speak_on_the_server(monkeypatch)
    return make_stage(cast)


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


def test_every_sentence_of_the_api_is_a_message(stage: Stage) -> None:
    ids, client = one_of_each(stage), stage.cast.signed_in("manager")
    pages = [
        (address, query)
        for path in PATHS
        if path not in NOT_IN_THE_CATALOGUE
        for query in QUERIES.get(path, ({},))
        for address in addresses(path, ids)
    ]
    answers = [client.get(address, query) for address, query in pages]
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
    texts = [text for page in pages for text in Shown(page).texts]
    assert sum(BEGINS in text for text in texts) > 60
    assert not_in_the_catalogue(texts) == set()


def test_a_planted_sentence_is_seen(stage: Stage) -> None:
    texts = ["Nobody put this here", f"Nor this, {say('app.not_found')}", say("app.not_found"), stage.customer.name]
    assert not_in_the_catalogue(texts) == {"Nobody put this here", "Nor this"}
    assert not_in_the_catalogue(["Plain", "Tue 8 Dec, 4.20"], WORD) == {"Plain"}
