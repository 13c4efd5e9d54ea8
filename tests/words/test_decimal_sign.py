"""In a language with a decimal comma no sentence has a decimal point; values of the API keep theirs."""

import re
from collections.abc import Iterator

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from shop.models import RuleSet, Shop
from shop.tables.findings import Finding, must_fix
from shop.tables.wording import sentence
from shop.words import catalogue
from shop.words.languages import speaking
from tests.api.samples import one_of_each
from tests.api.test_query_plans import QUERIES, addresses
from tests.cast import Cast
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage, make_stage
from tests.words.test_every_sentence import Shown

pytestmark = pytest.mark.once

COMMA = "en-ZA"  # English with a decimal comma
POINT = re.compile(r"\d\.\d")
PATHS = ("quotes/{id}", "quotes/{id}/how", "quotes/{id}/margin", "jobs/{id}", "jobs/{id}/readiness")
PATHS += ("jobs/{id}/circuits",)
OURS = {reading for text in catalogue().values() for reading in text.readings()}  # "rounded to 0.1", for a translator


@pytest.fixture
def stage(cast: Cast) -> Stage:
    """The stage has hours, percentages, litres and a tax that are no whole numbers."""
    stage = make_stage(cast)
    (tax,) = RULES["taxes"]
    RuleSet.objects.update(rules=RULES | {"taxes": [tax | {"rate": "0.205"}]})
    Shop.objects.update(language=COMMA)
    return stage


def strings(answer: object) -> Iterator[str]:
    values = answer.values() if isinstance(answer, dict) else answer if isinstance(answer, list) else ()
    for value in values:
        yield from [value] if isinstance(value, str) else strings(value)


def sentences(texts: list[str]) -> list[str]:
    return [text for text in texts if " " in text.strip()]


def with_a_point(texts: list[str]) -> list[str]:
    return [text for text in sentences(texts) if POINT.search(text)]


def test_no_answer_has_a_sentence_with_a_decimal_point(stage: Stage) -> None:
    ids, client = one_of_each(stage), stage.cast.signed_in("manager")
    draft = f"quotes/{stage.quote().json()['id']}"
    requests = [(address, QUERIES.get(path, ({},))[0]) for path in PATHS for address in addresses(path, ids)]
    keys = ("labour:SETUP", "labour", "total", "tax:VAT")
    requests += [(draft, {}), (f"{draft}/margin", {}), *((f"{draft}/how", {"key": key}) for key in keys)]
    answers = [client.get(address, query) for address, query in requests]
    texts = [text for answer in answers for text in strings(answer.json())]
    assert {*with_a_point(texts)} - OURS == set()
    assert sum("," in text and bool(re.search(r"\d,\d", text)) for text in sentences(texts)) > 50
    assert any(re.fullmatch(r"\d+\.\d+", text) for text in texts)


def test_neither_have_the_customers_page_and_the_paper(stage: Stage) -> None:
    sent = open_gearbox(stage).sent(below_floor=True)
    phone = Phone(sent["link"]["url"])
    receipt = phone.client.get(phone.answer(price="0")["Location"]).content.decode()
    with speaking(COMMA):
        paper = paper_html(Revision.objects.get(state="accepted").snapshot)
    pages = [phone.html, receipt, paper]
    for texts in (Shown(page).texts for page in pages):
        assert [text for text in texts if POINT.search(text)] == []
        assert [text for text in texts if re.search(r"\d,\d\d", text)]


def test_a_finding_of_an_import_has_its_figures_with_the_comma_and_quotes_names_as_they_are() -> None:
    finding = must_fix("overlap_differs", one="GEN-01.5", other="BUMPER", before="0.5", first=3, now="1.25")
    with speaking(COMMA):
        words = sentence(finding)
    assert "overlap by 0,5 h in row 3, and by 1,25 h here" in words and "GEN-01.5" in words


@pytest.mark.parametrize(("n", "words"), [("2.5", "read as 2,5 pieces."), ("1", "read as 1 piece.")])
def test_pieces_that_were_read_have_the_comma_and_their_own_plural(n: str, words: str) -> None:
    finding = Finding("done_for_you", "read_as_pieces", (("n", n),), "", 3, "D", "quantity")
    with speaking(COMMA):
        assert sentence(finding).endswith(words)
