"""Shop supplies: the workshop's own sentences stand under the row, and the amount stands in sight where it must."""

from typing import Any

import pytest

from quotes.documents.paper_rows import paper_rows
from quotes.models import Revision
from quotes.presenters.sections import sections_of
from quotes.queries import frozen
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

WORDS = "They pay for cleaners and rags, which we cannot count job by job."


def sent(stage: Stage, **supplies: Any) -> tuple[dict[str, Any], str]:
    """(frozen text, page) of a quote under rules with these supplies and with words on them."""
    words = RULES["words"] | {"supplies": [WORDS]}
    stage.enact(RULES | {"supplies": RULES["supplies"] | supplies, "words": words})
    link = stage.sent(stage.turbo, below_floor=True)["link"]["url"]
    return frozen.read(Revision.objects.get()), Phone(link).html


def fees_of(document: dict[str, Any]) -> Any:
    return next(section for section in sections_of(document) if section.name == "fees")


def test_the_words_of_the_rules_stand_under_the_row(stage: Stage) -> None:
    document, page = sent(stage)
    assert WORDS in page
    row = next(row for row in paper_rows(document).fees if row.title == "Shop supplies")
    assert row.why[-1] == WORDS and row.price == "48.00"


def test_the_amount_is_folded_into_the_sum_where_nothing_else_is_ruled(stage: Stage) -> None:
    document, _ = sent(stage)
    assert fees_of(document).folded
    assert [row.title for row in paper_rows(document).summary if "upplies" in row.title] == ["Supplies and fees"]


def test_the_amount_that_must_be_stated_stands_in_sight_on_page_and_paper(stage: Stage) -> None:
    document, page = sent(stage, stated=True)
    assert not fees_of(document).folded
    paper = paper_rows(document)
    [row] = [row for row in paper.summary if row.title == "Shop supplies"]
    assert (row.price, row.why[-1]) == ("48.00", WORDS)
    assert paper.fees == [] and "Supplies and fees" not in [row.title for row in paper.summary]
    assert "Used oil" in [row.title for row in paper.summary]  # the other fees are named beside it
    before = page[: page.index("Shop supplies")]
    assert before.count("<details") == before.count("</details")


def test_an_older_text_says_nothing_of_it(stage: Stage) -> None:
    document, _ = sent(stage, stated=True)
    for fee in document["shown"]["fees"]:
        fee.pop("stated", None)
    assert fees_of(document).folded


def test_a_new_rule_changes_nothing_that_was_sent(stage: Stage) -> None:
    document, _ = sent(stage)
    stage.enact(RULES | {"supplies": RULES["supplies"] | {"stated": True}})
    assert frozen.read(Revision.objects.get()) == document
