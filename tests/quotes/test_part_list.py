"""A pasted list of parts: shown as it is understood, then added as one change or not at all."""

from typing import Any

import pytest

from kitting.models import Code
from quotes.calc.part_list import MOST_LINES
from quotes.models import Line
from tests.factories import OfferFactory, PartFactory
from tests.quotes.stage import Stage
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once


def part(stage: Stage, number: str, title: str, **fields: Any) -> Any:
    row = PartFactory(shop=stage.shop, number=number, title=title, **fields)
    OfferFactory(shop=stage.shop, part=row)
    return row


def post(stage: Stage, text: str, where: str = "", quote: Any = None) -> Any:
    quote = quote or stage.quote(stage.towing).json()
    return stage.client.post(f"quotes/{quote['id']}/part-list{where}", {"text": text})


def test_a_list_is_read_without_adding_anything(stage: Stage) -> None:
    part(stage, "BI-NUT-10", "Flanged nut")
    gauge = part(stage, "BI-GAUGE", "Boost gauge")
    Code.objects.create(shop=stage.shop, code="09520000000019", part=gauge)
    answer = post(stage, "Number\tQty\nbi nut 10\t4\n9520000000019\t1\nXX-9\t2\n", "/reading").json()
    assert (answer["understood"], answer["wrong"]) == (2, 1)
    assert answer["words"] == "1 row has to be put right first. Nothing is added yet."
    rows = [(row["row"], row["reading"], row["number"], row["title"], row["quantity"]) for row in answer["rows"]]
    assert rows == [
        (1, "left_out", "Number", "", "1"),
        (2, "understood", "BI-NUT-10", "Flanged nut", "4"),
        (3, "understood", "BI-GAUGE", "Boost gauge", "1"),
        (4, "unknown", "XX-9", "", "1"),
    ]
    assert answer["rows"][1]["price"] and answer["rows"][3]["words"] == (
        "XX-9 is not on file. Correct the number, or remove the row."
    )
    assert not Line.objects.filter(kind="part").exists()


def test_a_list_is_added_as_one_change_that_can_be_undone(stage: Stage) -> None:
    part(stage, "BI-NUT-10", "Flanged nut")
    part(stage, "BI-GAUGE", "Boost gauge")
    answer = post(stage, "BI-NUT-10;4\nBI-GAUGE")
    quote = answer.json()
    assert answer.status_code == 201 and quote["undo"] == {"words": "Parts of a list added"}
    assert [(extra["title"], extra["quantity"]) for extra in quote["extras"]] == [
        ("Flanged nut", "4"),
        ("Boost gauge", "1"),
    ]
    undone = stage.client.post(f"quotes/{quote['id']}/undo", {"version": quote["version"]}).json()
    assert undone["extras"] == []


def test_nothing_is_added_where_a_row_is_wrong(stage: Stage) -> None:
    part(stage, "BI-NUT-10", "Flanged nut")
    refused = post(stage, "BI-NUT-10 4\nXX-9 1\nBI-NUT-10 0")
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/part-list-unread")
    assert refused.json()["detail"] == "Nothing was added. Put these rows right first: 2, 3."
    typed = post(stage, "XX-9")
    assert (typed.status_code, typed.json()["errors"][0]["pointer"]) == (400, "/text")
    assert typed.json()["errors"][0]["detail"].startswith("XX-9 is not on file. Correct it, or add the part as")
    assert not Line.objects.filter(kind="part").exists()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Part number\tQty", "Paste at least one part number."),
        ("BI-NUT-10\n" * (MOST_LINES + 1), f"A list can have {MOST_LINES} lines. Paste it in two parts."),
    ],
)
def test_a_list_of_nothing_and_one_that_is_too_long_are_refused(stage: Stage, text: str, words: str) -> None:
    refused = post(stage, text)
    assert refused.status_code == 400 and refused.json()["errors"][0]["detail"] == words


def test_a_replaced_part_is_added_under_its_last_number(stage: Stage) -> None:
    newer = part(stage, "QF-2", "Hose, new")
    part(stage, "QF-1", "Hose", superseded_by=newer)
    (row,) = post(stage, "QF-1 2", "/reading").json()["rows"]
    assert (row["number"], row["words"]) == ("QF-2", "Instead of QF-1, which was replaced")
    assert [line["title"] for line in post(stage, "QF-1 2").json()["extras"]] == ["Hose, new"]


def test_a_number_of_another_shop_is_unknown(stage: Stage) -> None:
    PartFactory(shop=stage.cast.elsewhere, number="BI-NUT-10")
    (row,) = post(stage, "BI-NUT-10 4", "/reading").json()["rows"]
    assert (row["reading"], row["part"]) == ("unknown", None)


def test_the_number_of_queries_does_not_grow_with_the_list(stage: Stage) -> None:
    quote = stage.quote(stage.towing).json()
    for number in range(9):
        part(stage, f"P-{number}", f"Part {number}")
    few = queries(lambda: post(stage, "P-1 2", "/reading", quote))
    long = "\n".join(f"P-{number}\t{number + 1}" for number in range(9))
    assert queries(lambda: post(stage, long, "/reading", quote)) <= few
