"""A loose part is sold new, used or reconditioned, and the customer reads which on page and paper."""

from typing import Any

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Line, Revision
from quotes.presenters.sections import sections_of
from quotes.queries import frozen
from tests.factories import PartFactory
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def with_part(stage: Stage) -> tuple[dict[str, Any], str]:
    """(a draft with a loose part, the address of its line)"""
    quote = stage.quote().json()
    part = PartFactory(shop=stage.shop, number="P-1", title="Charge pipe")
    line = {"kind": "part", "part": str(part.pk), "quantity": "1"}
    draft = stage.client.post(f"quotes/{quote['id']}/lines", line)
    return draft.json(), f"quotes/{quote['id']}/lines/{draft.json()['extras'][0]['line']}"


def changed(stage: Stage, address: str, **fields: Any) -> Any:
    seen = stage.client.get(address.split("/lines")[0])
    return stage.client.patch(address, fields, seen=seen)


def test_a_part_is_new_and_of_another_maker_until_somebody_says_otherwise(stage: Stage) -> None:
    draft, address = with_part(stage)
    (part,) = draft["extras"]
    assert (part["condition"], part["original"]) == ("new", False)
    (part,) = changed(stage, address, part_condition="used", original=True).json()["extras"]
    assert (part["condition"], part["original"]) == ("used", True)


def test_the_customer_reads_it_on_page_and_paper(stage: Stage) -> None:
    draft, address = with_part(stage)
    changed(stage, address, part_condition="reconditioned", original=True, unit_price="80.00", because="As agreed")
    sent = stage.client.post(
        f"quotes/{draft['id']}/send",
        {
            "version": stage.client.get(f"quotes/{draft['id']}").json()["version"],
            "recipient": "Maren",
            "below_floor": True,
        },
    )
    assert sent.status_code == 201, sent.content
    words = "reconditioned, from the vehicle manufacturer"
    assert words in Phone(sent.json()["link"]["url"]).html
    assert words in paper_html(Revision.objects.get(state="sent").snapshot)


def test_a_text_from_before_says_nothing_of_it(stage: Stage) -> None:
    _, address = with_part(stage)
    changed(stage, address, unit_price="80.00", because="As agreed")
    stage.client.post(f"{address.split('/lines')[0]}/send", {"version": 3, "recipient": "Maren", "below_floor": True})
    document = frozen.read(Revision.objects.get(state="sent"))
    content = document["shown"]
    assert [line.why for section in sections_of(document) if section.name == "extras" for line in section.lines] == [
        ["new, not from the vehicle manufacturer"]
    ]
    for name in ("condition", "original"):
        del content["extras"][0][name]
    assert [line.why for section in sections_of(document) if section.name == "extras" for line in section.lines] == [[]]


def test_a_line_written_by_hand_has_none_and_the_next_version_keeps_it(stage: Stage) -> None:
    draft, address = with_part(stage)
    changed(stage, address, part_condition="used")
    text = {"kind": "text", "title": "Key", "quantity": "1", "unit_price": "5.00", "tax_class": "part"}
    extras = stage.client.post(f"quotes/{draft['id']}/lines", text).json()["extras"]
    assert extras[1]["condition"] is None
    refused = changed(stage, f"quotes/{draft['id']}/lines/{extras[1]['line']}", part_condition="used")
    assert refused.status_code == 400
    assert [error["pointer"] for error in refused.json()["errors"]] == ["/part_condition"]
    assert changed(stage, address, part_condition="worn").status_code == 400
    assert Line.objects.get(part__number="P-1").part_condition == "used"
