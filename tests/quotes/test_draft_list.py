"""A draft gets its number with its first line, stands in lists with its total, and can be discarded while unsent."""

from typing import Any

import pytest

from quotes.models import Quote
from shop.models import History
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

POLISH = {"kind": "text", "title": "Polish", "unit_price": "40", "tax_class": "part"}


def empty(stage: Stage) -> dict[str, Any]:
    quote: dict[str, Any] = stage.client.post("quotes", {"kits": []}).json()
    return quote


def drafts(stage: Stage) -> list[dict[str, Any]]:
    laid_aside: list[dict[str, Any]] = stage.client.get("counter").json()["laid_aside"]
    return laid_aside


def discard(stage: Stage, quote: dict[str, Any]) -> Any:
    return stage.client.delete(f"quotes/{quote['id']}", seen=f'"{quote["version"]}"')


def test_the_first_line_gives_the_number_and_nothing_else(stage: Stage) -> None:
    first, second = empty(stage), empty(stage)
    assert (first["number"], second["number"]) == (None, None)
    for _ in range(2):
        second = stage.client.post(f"quotes/{second['id']}/lines", POLISH).json()
    assert second["number"] == "Q-1" and stage.quote().json()["number"] == "Q-2"
    kit = {"kind": "kit", "kit": str(stage.turbo.pk)}
    assert stage.client.post(f"quotes/{first['id']}/lines", kit).json()["number"] == "Q-3"
    assert Quote.objects.filter(number=None).count() == 0


def test_the_list_has_total_note_and_telephone(stage: Stage) -> None:
    quote = stage.quote().json()
    (row,) = drafts(stage)
    assert (row["gross"], row["note"], row["phone"]) == ("3207.38", "", "01632 960 417")
    noted = stage.client.patch(f"quotes/{quote['id']}", {"note": "rings back on Friday"}, seen='"1"').json()
    added = stage.client.post(f"quotes/{quote['id']}/lines", POLISH).json()
    (row,) = drafts(stage)
    assert (
        (row["gross"], row["note"]) == (added["totals"]["gross"], "rings back on Friday") == ("3247.38", noted["note"])
    )
    left = stage.client.delete(
        f"quotes/{quote['id']}/lines/{added['extras'][0]['line']}", seen=f'"{added["version"]}"'
    ).json()
    assert drafts(stage)[0]["gross"] == left["totals"]["gross"] == "3207.38"


def test_the_answer_to_a_change_is_what_is_read_afterwards(stage: Stage) -> None:
    quote = stage.quote().json()
    changed = stage.client.patch(f"quotes/{quote['id']}", {"condition": "heavy"}, seen='"1"').json()
    assert changed == stage.client.get(f"quotes/{quote['id']}").json()
    discounted = stage.client.put(
        f"quotes/{quote['id']}/discount", {"percent": "5", "because": "agreed"}, seen='"2"'
    ).json()
    assert discounted == stage.client.get(f"quotes/{quote['id']}").json()


def test_a_discarded_draft_is_gone_and_comes_back_as_it_was(stage: Stage) -> None:
    quote, other = stage.quote().json(), stage.quote(stage.turbo).json()
    assert discard(stage, quote).status_code == 204
    assert [item["id"] for item in drafts(stage)] == [other["id"]]
    assert [item["id"] for item in stage.client.get("quotes").json()["items"]] == [other["id"]]
    assert stage.client.get("find", {"q": quote["number"]}).json()["items"] == []
    assert stage.client.get(f"quotes/{quote['id']}").status_code == 404
    assert stage.client.post(f"quotes/{quote['id']}/lines", POLISH).status_code == 404
    back = stage.client.post(f"quotes/{quote['id']}/restore")
    assert (back.status_code, back.json()) == (200, quote)
    assert stage.client.post(f"quotes/{quote['id']}/restore").json() == quote
    lines = History.objects.filter(verb__in=["discarded", "restored"]).order_by("recorded_at", "id")
    assert [line.verb for line in lines] == ["discarded", "restored"]


def test_what_a_customer_has_seen_is_not_discarded(stage: Stage) -> None:
    sent = stage.sent()["quote"]
    assert discard(stage, sent).json()["type"] == "/problems/not-a-draft"
    draft = stage.client.post(f"quotes/{sent['id']}/revise").json()
    assert discard(stage, draft).json()["type"] == "/problems/cannot-discard"


@pytest.mark.parametrize("role", ["parts", "technician"])
def test_only_who_quotes_may_discard(stage: Stage, role: str) -> None:
    quote = stage.quote().json()
    path, client = f"quotes/{quote['id']}", stage.cast.signed_in(role)
    assert client.delete(path, seen='"1"').status_code == client.post(f"{path}/restore").status_code == 403


def test_a_draft_that_changed_is_not_discarded_by_who_has_not_seen_it(stage: Stage) -> None:
    quote = stage.quote().json()
    stage.client.patch(f"quotes/{quote['id']}", {"condition": "heavy"}, seen='"1"')
    assert discard(stage, quote).status_code == 412
