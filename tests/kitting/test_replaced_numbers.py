"""A part that another number replaces, recorded by hand: its effect on quotes, pasted lists and find."""

from typing import Any

import pytest

from kitting.queries.contents import superseded_by
from shop.models import History
from tests.cast import Cast
from tests.factories import ConsumableFactory, PackFactory, PartFactory

pytestmark = pytest.mark.once

WHERE = "replaced-numbers"


def refusal(answer: Any) -> tuple[str, str]:
    assert answer.status_code == 400, answer.content
    (error,) = answer.json()["errors"]
    return error["pointer"], error["detail"]


def test_a_number_replaces_another_until_it_is_taken_back(cast: Cast) -> None:
    old, _, _ = (PartFactory(shop=cast.shop, number=number) for number in ("76-10", "77-10", "78-10"))
    manager, parts, where = cast.signed_in("manager"), cast.signed_in("parts"), f"{WHERE}/{old.pk}"
    added = manager.post(WHERE, {"number": "76 10", "newer": "77.10"})
    row = added.json()
    assert (added.status_code, row["number"], row["newer"], row["newer_title"]) == (201, "76-10", "77-10", "Part 77-10")
    assert (row["id"], parts.get(where).json()) == (str(old.pk), row)
    listed = [parts.get(WHERE, {"q": q}).json()["items"] for q in ("", "6-1", "7710", "part 76", "78")]
    assert listed == [[row], [row], [row], [row], []]
    assert parts.post(WHERE, {"number": "78-10", "newer": "77-10"}).status_code == 403
    finds = cast.signed_in("advisor").get("find", {"q": "76-10"}).json()["items"]
    assert [item["detail"] for item in finds] == ["now 77-10"]
    assert manager.delete(where, seen=added).status_code == 204 and superseded_by(cast.shop) == {}
    assert parts.get(where).status_code == manager.delete(where, seen=added).status_code == 404
    assert manager.post(WHERE, {"number": "76-10", "newer": "78-10"}).status_code == 201
    assert manager.delete(where, seen=added).status_code == 412 and superseded_by(cast.shop) == {"76-10": "78-10"}
    lines = History.objects.filter(subject="part", subject_id=old.pk).order_by("recorded_at")
    assert [(line.verb, line.changes["superseded_by"]) for line in lines] == [
        ("replaced", [None, "77-10"]),
        ("brought back", ["77-10", None]),
        ("replaced", [None, "78-10"]),
    ]


def test_what_cannot_replace_a_number_is_refused_at_its_field(cast: Cast) -> None:
    for number in ("76-10", "77-10", "78-10"):
        PartFactory(shop=cast.shop, number=number)
    PartFactory(shop=cast.shop, number="79-10", unit="m")
    PartFactory(shop=cast.elsewhere, number="80-10")
    PackFactory(shop=cast.shop, number="OIL-5", consumable=ConsumableFactory(shop=cast.shop))
    manager = cast.signed_in("manager")
    add = lambda number, newer: manager.post(WHERE, {"number": number, "newer": newer})  # noqa: E731
    assert [add("76-10", "77-10").status_code, add("77-10", "78-10").status_code] == [201, 201]
    assert refusal(add("80-10", "78-10")) == (
        "/number",
        "No part has the number 80-10. Check it, or import a list that has it.",
    )
    assert refusal(add("78-10", "--"))[0] == refusal(add("78-10", "80-10"))[0] == "/newer"
    assert refusal(add("78-10", "78 10")) == ("/newer", "78-10 cannot replace itself. Enter another number.")
    assert refusal(add("76-10", "78-10")) == ("/number", "77-10 replaces 76-10 already. Undo that first.")
    circle = "76-10 cannot replace 78-10, for it leads back to it."
    assert refusal(add("78-10", "76-10")) == ("/newer", circle)
    assert refusal(add("78-10", "79-10"))[1].startswith("78-10 is counted in pc and 79-10 in m")
    assert refusal(add("OIL-5", "78-10"))[0] == "/number" and refusal(add("78-10", "OIL-5"))[0] == "/newer"
    assert superseded_by(cast.shop) == {"76-10": "77-10", "77-10": "78-10"}
    (item,) = cast.signed_in("advisor").get("find", {"q": "76-10"}).json()["items"]
    assert item["detail"] == "now 78-10"
