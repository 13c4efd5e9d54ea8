"""An advisor sees the customer's page before and after sending. It cannot be answered, and leaves no trace."""

import html
from typing import Any

import pytest

from quotes.models import Decision, Link, Revision
from shop.models import History
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_price_stated import AUTOMATIC, MANUAL
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once

NOT_SENT = "Not sent. Only you see this."


def page_of(stage: Stage, quote: Any) -> str:
    answer = stage.client.get(f"quotes/{quote['id']}/as-customer")
    assert (answer.status_code, answer["Content-Type"]) == (200, "text/html; charset=utf-8")
    assert answer["Cache-Control"] == "no-store"
    return html.unescape(answer.content.decode())


def test_a_draft_is_seen_with_its_figures_and_cannot_be_answered(stage: Stage) -> None:
    page = page_of(stage, stage.quote().json())
    assert NOT_SENT in page and "3,207.38" in page and "Turbocharger kit" in page
    assert "<form" not in page and "csrf" not in page and '<fieldset class="split even" disabled>' in page
    assert "check code given when it is sent" in page and "<script" not in page


def test_it_is_the_page_that_the_customer_gets(stage: Stage) -> None:
    draft = stage.quote().json()
    before = page_of(stage, draft)
    body = {"version": draft["version"], "recipient": "x"}
    sent = stage.client.post(f"quotes/{draft['id']}/send", body).json()
    page, after = html.unescape(Phone(sent["link"]["url"]).html), page_of(stage, draft)
    assert NOT_SENT not in after and "This is the customer’s page." in after and "<form" not in after
    for name in ("What it costs", "Please read before you accept"):
        of_each = [page.split(name)[1].split("</section>")[0] for page in (before, after, page)]
        assert of_each[0] == of_each[1] == of_each[2]


def test_looking_leaves_no_trace(stage: Stage) -> None:
    draft = stage.quote().json()
    stage.sent()
    rows = [list(model.objects.order_by("pk").values()) for model in (Revision, History, Link, Decision)]
    for revision in Revision.objects.all():
        page_of(stage, {"id": revision.quote_id})
    assert rows == [list(model.objects.order_by("pk").values()) for model in (Revision, History, Link, Decision)]
    assert stage.client.get(f"quotes/{draft['id']}").json()["state"] == "draft"


def test_no_cost_is_on_it(stage: Stage) -> None:
    page = page_of(stage, stage.quote().json())
    costs = ("900.00", "1,000.00", "400.00")  # of the two kits; the dearer one is 1,000.00 USD, at 0.9
    assert "Margin" not in page and not any(f">{cost}" in page for cost in costs)


def test_a_gearbox_that_is_not_recorded_shows_both_prices(stage: Stage) -> None:
    page = page_of(stage, open_gearbox(stage).quote().json())
    assert MANUAL in page and AUTOMATIC in page and "Not recorded: gearbox." in page
    assert page.split('id="accept"')[1].count('type="radio"') == 3


def test_what_stops_a_draft_is_said(stage: Stage) -> None:
    draft = stage.client.post("quotes", {"kits": [str(stage.turbo.pk)]}).json()
    answer = stage.client.get(f"quotes/{draft['id']}/as-customer")
    assert (answer.status_code, answer.json()["type"]) == (409, "/problems/not-ready-to-send")


def test_the_number_of_queries_does_not_grow_with_a_kit(stage: Stage) -> None:
    def look(quote: Any) -> int:
        return queries(lambda: stage.client.get(f"quotes/{quote['id']}/as-customer"))

    few = look(stage.quote(stage.turbo).json())
    grow(stage)
    assert look(stage.quote().json()) <= few
