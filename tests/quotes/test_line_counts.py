"""One number of lines of a parts list: where a kit is chosen, on quote, page, paper and pull list."""

from decimal import Decimal

import pytest

from kitting.models import KitRevision, PullLine, PullList
from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from tests.factories import KitLineFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

AUTOMATIC = [{"attribute": "transmission", "in": ["automatic"]}]


def test_the_numbers_of_lines_agree_from_the_choice_of_the_kit_to_the_count(stage: Stage) -> None:
    """The vehicle is a manual: 3 lines apply, 1 is for automatics, 2 lie in a bag for automatics."""
    revision = KitRevision.objects.get(kit=stage.turbo)
    bag = KitLineFactory(
        shop=stage.cast.shop, revision=revision, position=7, kind="bag", label="Bag 1-02", conditions=AUTOMATIC
    )
    for position in (8, 9):
        KitLineFactory(shop=stage.cast.shop, revision=revision, position=position, parent=bag, quantity=Decimal(1))
    row = next(item for item in stage.client.get("kits").json()["items"] if item["code"] == "BI-T")
    sent = stage.sent(stage.turbo)
    (kit,) = sent["quote"]["kits"]
    assert (kit["parts"], kit["listed"], row["parts"]) == (3, 6, 6)

    phone, sentence = Phone(sent["link"]["url"]), "BI-T; 3 of 6 lines of the parts list apply to your vehicle"
    frozen = Revision.objects.get()
    paper = paper_html(frozen.snapshot)
    assert sentence in phone.html and sentence in paper

    phone.answer()
    lines = PullLine.objects.filter(pull_list=PullList.objects.get(), kit="BI-T")
    assert lines.filter(kind="box").count() == 3 and lines.filter(kind__in=["box", "beside"]).count() == 6


def test_a_kit_of_which_every_line_applies_says_one_number(stage: Stage) -> None:
    revision = KitRevision.objects.get(kit=stage.turbo)
    revision.lines.exclude(conditions=[]).delete()
    sent = stage.sent(stage.turbo)
    (kit,) = sent["quote"]["kits"]
    assert (kit["parts"], kit["listed"]) == (2, 2)
    assert "BI-T; parts list of 2 lines, all new" in Phone(sent["link"]["url"]).html
