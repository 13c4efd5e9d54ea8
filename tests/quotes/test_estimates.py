"""A workshop that gives estimates says so on page and paper; what it sent as quotes before stays so."""

import json

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_how import with_rules

pytestmark = pytest.mark.once


def headings(sent: dict) -> tuple[str, str]:
    """The page and the paper of what was sent."""
    page = Phone(sent["link"]["url"]).html
    return page, paper_html(Revision.objects.get(state="sent").snapshot)


def test_an_estimate_is_called_so_on_page_and_paper(stage: Stage) -> None:
    with_rules(offer="estimate")
    page, paper = headings(stage.sent())
    number = json.loads(Revision.objects.get(state="sent").snapshot)["quote"]["number"]
    assert f"Your estimate, {number}" in page and "Your quote" not in page
    assert f"Estimate {number}, version 1" in paper and f"I accept estimate {number}" in paper


def test_a_text_that_does_not_say_is_a_quote(stage: Stage) -> None:
    page, paper = headings(stage.sent())
    assert "Your quote, " in page
    document = json.loads(Revision.objects.get(state="sent").snapshot)
    assert document["rules"].pop("offer") == "quotation"
    assert paper_html(json.dumps(document)).count("Estimate") == 0 == paper.count("Estimate")
