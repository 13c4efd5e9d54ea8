"""A quote with lines that are charged only if they happen."""

import json
from typing import Any

from tests.client import CheckedClient
from tests.factories import PartFactory
from tests.quotes.stage import Stage

STUD = {
    "event": "An exhaust stud breaks",
    "title": "Drill it out and fit a new one",
    "skill": "mechanical",
    "quantity": "0.6",
    "cap": 4,
}
HOSE = {
    "event": "The coolant hose has perished",
    "title": "New hose",
    "unit_price": "64.20",
    "tax_class": "part",
    "cap": 1,
}
STUD_ONCE, STUD_HIGHEST = "99.00", "396.00"  # 0.6 h at 165.00, tax inside; four times


def add(stage: Stage, quote: str, **fields: Any) -> Any:
    return stage.client.post(f"quotes/{quote}/contingencies", fields)


def with_stud(stage: Stage, **quote: Any) -> dict[str, Any]:
    """A draft with both kits and a stud that may break."""
    return stage.as_before(_with_stud, json.dumps(quote))


def _with_stud(stage: Stage, _: Any, quote: str) -> dict[str, Any]:
    draft = stage.quote(**json.loads(quote)).json()
    answer = add(stage, draft["id"], **STUD)
    assert answer.status_code == 201, answer.content
    return dict(answer.json())


def with_part(stage: Stage) -> tuple[dict[str, Any], str]:
    """(a draft with a loose part for 80.00, the id of its line)"""
    return stage.as_before(_with_part)


def _with_part(stage: Stage, _: Any) -> tuple[dict[str, Any], str]:
    quote = stage.quote().json()
    part = PartFactory(shop=stage.shop, number="P-1", title="Charge pipe")
    draft = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "part", "part": str(part.pk), "quantity": "1"})
    line = draft.json()["extras"][0]["line"]
    priced = stage.client.patch(
        f"quotes/{quote['id']}/lines/{line}", {"unit_price": "80.00", "because": "agreed"}, seen=draft
    )
    return dict(priced.json()), line


def sent(stage: Stage, draft: dict[str, Any], client: CheckedClient | None = None) -> dict[str, Any]:
    """The answer of sending the draft: {quote, link}."""
    body = {"version": draft["version"], "recipient": "Maren", "below_floor": True}
    answer = (client or stage.client).post(f"quotes/{draft['id']}/send", body)
    assert answer.status_code == 201, answer.content
    return dict(answer.json())
