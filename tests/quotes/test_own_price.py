"""A loose part's own price needs a reason, which is stored with its author and never shown to the customer."""

import json
from typing import Any

import pytest

from quotes.models import Line
from shop.models import History
from tests.factories import OfferFactory, PartFactory
from tests.quotes.changing import send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def with_part(stage: Stage, *, offer: bool = True) -> tuple[str, dict[str, Any]]:
    """(path of the loose part's line, draft)"""
    part = PartFactory(shop=stage.shop, title="Boost gauge")
    if offer:
        OfferFactory(shop=stage.shop, part=part)
    quote = stage.quote(stage.turbo).json()
    draft = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "part", "part": str(part.pk)}).json()
    return f"quotes/{quote['id']}/lines/{draft['extras'][0]['line']}", draft


def patch(stage: Stage, path: str, draft: dict[str, Any], **body: Any) -> Any:
    return stage.client.patch(path, body, seen=f'"{draft["version"]}"')


@pytest.mark.parametrize("because", [None, "", "   ", "\u200b"])
def test_a_part_gets_no_price_of_its_own_without_a_reason(stage: Stage, because: str | None) -> None:
    path, draft = with_part(stage)
    body = {} if because is None else {"because": because}
    answer = patch(stage, path, draft, unit_price="9.50", **body)
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.json()["errors"]] == ["/because"]
    assert Line.objects.get(kind="part").unit_price is None


def test_the_reason_stands_beside_the_price_and_in_the_history_with_the_name(stage: Stage) -> None:
    path, draft = with_part(stage)
    assert draft["extras"][0]["override"] is None
    own = patch(stage, path, draft, unit_price="9.50", because="last one, box torn").json()
    [line] = own["extras"]
    assert (line["price"], line["override"]) == ("9.50", {"value": "9.50", "because": "last one, box torn"})
    entry = History.objects.filter(verb="line changed").latest("id")
    assert entry.changes["override_reason"] == ["", "last one, box torn"]
    assert entry.author == stage.cast.acting("advisor").member
    how = stage.client.get(f"quotes/{own['id']}/how?key=extra:{line['line']}").json()
    assert "Replaced by hand: last one, box torn" in json.dumps(how)
    assert draft["extras"][0]["price"] in json.dumps(how)


def test_a_part_goes_back_to_the_price_worked_out(stage: Stage) -> None:
    path, draft = with_part(stage)
    own = patch(stage, path, draft, unit_price="9.50", because="torn").json()
    back = patch(stage, path, own, unit_price=None).json()
    assert back["extras"] == draft["extras"]
    assert Line.objects.get(kind="part").override_reason == ""


def test_other_changes_of_a_part_need_no_reason_and_leave_its_price(stage: Stage) -> None:
    path, draft = with_part(stage)
    changed = patch(stage, path, draft, title="Boost gauge, 52 mm", quantity="2").json()
    assert changed["extras"][0]["unit_price"] == draft["extras"][0]["unit_price"]
    own = patch(stage, path, changed, unit_price="9.50", because="torn").json()
    assert patch(stage, path, own, quantity="3").json()["extras"][0]["override"]["because"] == "torn"


def test_a_line_written_by_hand_has_a_price_and_no_reason(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    line = {"kind": "text", "title": "Polish", "unit_price": "40.00", "tax_class": "labour"}
    draft = stage.client.post(f"quotes/{quote['id']}/lines", line).json()
    path = f"quotes/{quote['id']}/lines/{draft['extras'][0]['line']}"
    for body, pointer in (({"because": "x"}, "/because"), ({"unit_price": None}, "/unit_price")):
        answer = patch(stage, path, draft, **body)
        assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == pointer
    assert patch(stage, path, draft, unit_price="44.00").json()["extras"][0]["price"] == "44.00"


def test_the_customer_reads_the_price_and_never_the_reason(stage: Stage) -> None:
    path, draft = with_part(stage)
    own = patch(stage, path, draft, unit_price="9.50", because="last one, box torn").json()
    sent = send(stage, own)
    page = Phone(sent["link"]["url"]).html
    assert "9.50" in page and "box torn" not in page
    assert Line.objects.get(kind="part").override_reason == "last one, box torn"


def test_the_next_version_keeps_the_price_with_its_reason(stage: Stage) -> None:
    path, draft = with_part(stage)
    own = patch(stage, path, draft, unit_price="9.50", because="torn").json()
    send(stage, own)
    second = stage.client.post(f"quotes/{own['id']}/revise").json()
    assert second["extras"][0]["override"] == {"value": "9.50", "because": "torn"}


def with_contingency(stage: Stage, **price: str) -> Any:
    part = PartFactory(shop=stage.shop, title="Coolant hose")
    OfferFactory(shop=stage.shop, part=part)
    quote = stage.quote(stage.turbo).json()
    fields = {"event": "The hose has perished", "cap": 1, "part": str(part.pk)}
    return stage.client.post(f"quotes/{quote['id']}/contingencies", fields | price)


def test_a_part_that_may_happen_gets_no_price_of_its_own_without_a_reason(stage: Stage) -> None:
    refused = with_contingency(stage, unit_price="9.50")
    assert (refused.status_code, refused.json()["errors"][0]["pointer"]) == (400, "/because")
    draft = with_contingency(stage).json()
    [line] = draft["contingencies"]
    path = f"quotes/{draft['id']}/contingencies/{line['line']}"
    for because in ({}, {"because": "\u200b"}):
        answer = patch(stage, path, draft, unit_price="9.50", **because)
        assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, "/because")
    own = patch(stage, path, draft, unit_price="9.50", because="box torn").json()
    assert own["contingencies"][0]["override"] == {"value": "9.50", "because": "box torn"}
    assert patch(stage, path, own, cap=2).json()["contingencies"][0]["override"]["because"] == "box torn"


def test_a_part_that_may_happen_goes_back_to_the_price_worked_out(stage: Stage) -> None:
    draft = with_contingency(stage, unit_price="9.50", because="box torn").json()
    [line] = draft["contingencies"]
    assert (line["unit_price"], line["override"]["because"]) == ("9.50", "box torn")
    path = f"quotes/{draft['id']}/contingencies/{line['line']}"
    back = patch(stage, path, draft, unit_price=None).json()["contingencies"][0]
    assert (back["override"], back["unit_price"]) == (
        None,
        with_contingency(stage).json()["contingencies"][0]["unit_price"],
    )


def test_only_a_part_that_may_happen_has_a_reason(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    work = {"event": "A stud breaks", "cap": 4, "title": "Drill it out", "skill": "mechanical", "because": "x"}
    answer = stage.client.post(f"quotes/{quote['id']}/contingencies", work)
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, "/because")


def test_the_customer_never_reads_the_reason_of_what_may_happen_and_the_next_version_keeps_it(stage: Stage) -> None:
    draft = with_contingency(stage, unit_price="9.50", because="box torn").json()
    page = Phone(send(stage, draft)["link"]["url"]).html
    assert "9.50" in page and "box torn" not in page
    second = stage.client.post(f"quotes/{draft['id']}/revise").json()
    assert second["contingencies"][0]["override"] == {"value": "9.50", "because": "box torn"}
