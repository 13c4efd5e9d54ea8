"""Items covered by shop supplies are one line on the customer's page and PDF, not eleven lines of 0.00."""

import html

import pytest

from kitting.models import Need
from quotes.documents.quote_pdf import paper_html
from quotes.models import Override, Revision
from tests.factories import ConsumableFactory, OfferFactory, PackFactory, SupplierFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def with_grease(stage: Stage) -> None:
    """A second need, beside the oil; both are covered."""
    shop, oil = stage.cast.shop, Need.objects.get()
    grease = ConsumableFactory(shop=shop, family="grease", specification="ceramic")
    supplier = SupplierFactory(shop=shop)
    OfferFactory(shop=shop, supplier=supplier, part=PackFactory(shop=shop, consumable=grease, preferred=supplier))
    Need.objects.create(
        shop=shop,
        revision=oil.revision,
        position=2,
        consumable=grease,
        rule="fixed",
        quantity=1,
        operation=oil.operation,
    )
    Need.objects.update(charge="supplies")


def part_of(html_text: str) -> str:
    return html.unescape(html_text.split("Oils, fluids and small parts", 1)[1].split("<h2", 1)[0])


def on_paper() -> tuple[str, str]:
    """(what is charged, the paragraph on what is covered)"""
    charged, covered = html.unescape(paper_html(Revision.objects.get().snapshot)).split('<p class="covered">')
    return charged, covered.split("</p>")[0]


def test_covered_items_are_one_line_that_names_them(stage: Stage) -> None:
    with_grease(stage)
    page = Phone(stage.sent()["link"]["url"]).html
    charged, covered = on_paper()
    assert "engine oil, 5W-30" not in charged and '<td class="money">0.00</td>' not in charged
    for text in (part_of(page), covered):
        assert "Covered by shop supplies" in text and "2 items: engine oil, 5W-30; grease, ceramic" in text
        assert text.count("included") == 1 and "Charged by the pack" not in text


def test_one_with_a_price_of_its_own_stays_a_line(stage: Stage) -> None:
    with_grease(stage)
    draft = stage.quote(stage.turbo)
    key = draft.json()["needs"][0]["key"]
    path = f"quotes/{draft.json()['id']}"
    own = stage.client.put(f"{path}/overrides/{key}", {"value": "12.00", "because": "agreed"}, seen=draft).json()
    stage.client.post(f"{path}/send", {"version": own["version"], "recipient": "x"})
    assert Override.objects.exists()
    charged, covered = on_paper()
    assert "1 item: " in covered and '<td class="money">12.00</td>' in charged
