"""Sent quotes without an answer are listed at the counter until somebody rings; then they come last."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from quotes.models import FollowUp, Link, LinkOpening, Revision
from quotes.services.follow_ups import note_opening
from shop.models import History
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

DAY = timedelta(days=1)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Sets the time to some days from now."""
    begun = timezone.now()

    def later(days: float) -> datetime:
        now = begun + timedelta(days=days)
        monkeypatch.setattr(timezone, "now", lambda: now)
        return now

    return later


def follow_up(stage: Stage) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = stage.client.get("counter").json()["follow_up"]
    return rows


def rang(stage: Stage, quote: dict[str, Any], outcome: str = "thinking") -> Any:
    return stage.client.post(f"quotes/{quote['id']}/follow-ups", {"outcome": outcome})


def test_a_quote_is_listed_once_it_is_silent_for_three_days(stage: Stage, clock: Any) -> None:
    sent = stage.sent()["quote"]
    clock(2.9)
    assert follow_up(stage) == []
    clock(3.1)
    (row,) = follow_up(stage)
    assert (row["row"]["id"], row["opened_at"], row["call"]) == (sent["id"], None, None)
    assert row["why"][0] == "Link not opened yet" and row["why"][1].startswith("Valid until ")
    stage.client.delete(f"quotes/{sent['id']}/links/{Link.objects.get().pk}")
    assert follow_up(stage)[0]["why"][0] == "No link works, so nobody can open it"


def test_one_that_expires_soon_comes_first_and_one_expired_for_a_week_is_gone(stage: Stage, clock: Any) -> None:
    first, second = stage.sent()["quote"], stage.sent(stage.turbo)["quote"]
    clock(11)
    assert [row["row"]["id"] for row in follow_up(stage)] == [first["id"], second["id"]]
    clock(15)
    assert [row["row"]["state"] for row in follow_up(stage)] == ["expired", "expired"]
    assert follow_up(stage)[0]["why"][1].startswith("Expired ")
    clock(22)
    assert follow_up(stage) == []


@pytest.mark.parametrize(
    ("outcome", "words"),
    [("no_answer", "no answer"), ("thinking", "is thinking about it"), ("wants_change", "asked for a change")],
)
def test_who_was_rung_comes_last_for_three_days_with_who_rang(
    stage: Stage, clock: Any, outcome: str, words: str
) -> None:
    first, second = stage.sent()["quote"], stage.sent(stage.turbo)["quote"]
    clock(4)
    call = rang(stage, first, outcome)
    assert call.status_code == 201 and call.json()["called_by"] == "Advisor"
    rows = follow_up(stage)
    assert [row["row"]["id"] for row in rows] == [second["id"], first["id"]]
    assert rows[1]["call"]["words"].startswith("Advisor rang ") and rows[1]["call"]["words"].endswith(f": {words}")
    clock(7.1)
    assert [row["row"]["id"] for row in follow_up(stage)] == [first["id"], second["id"]]
    assert History.objects.filter(verb="followed up").count() == 1


def test_an_answered_quote_and_one_with_a_newer_draft_need_no_call(stage: Stage, clock: Any) -> None:
    answered, revised = stage.sent(), stage.sent(stage.turbo)["quote"]
    Phone(answered["link"]["url"]).answer()
    stage.client.post(f"quotes/{revised['id']}/revise")
    clock(4)
    assert follow_up(stage) == []
    assert rang(stage, answered["quote"]).json()["type"] == "/problems/not-sent"


def test_the_first_opening_of_each_version_is_noted_once(stage: Stage, clock: Any) -> None:
    sent = stage.sent()
    url = sent["link"]["url"]
    phone = Phone(url)
    (opening,) = LinkOpening.objects.all()
    clock(4)
    phone.client.get(phone.page)
    assert LinkOpening.objects.get().opened_at == opening.opened_at
    (row,) = follow_up(stage)
    assert row["opened_at"] and row["why"][0].startswith("Link first opened ")
    draft = stage.client.post(f"quotes/{sent['quote']['id']}/revise").json()
    stage.client.post(f"quotes/{draft['id']}/send", {"version": draft["version"], "recipient": "x"})
    clock(8)
    assert follow_up(stage)[0]["opened_at"] is None
    phone.client.get(phone.page)
    assert LinkOpening.objects.count() == 2


def test_a_head_request_and_a_wrong_secret_are_no_opening(stage: Stage) -> None:
    sent = stage.sent()
    client, page = FormClient(), f"/q/{sent['link']['id']}/"
    client.get(page)
    client.get(f"{page}{'x' * 43}")
    client.get(sent["link"]["url"])
    client.head(page)
    assert LinkOpening.objects.count() == 0
    client.get(page)
    assert LinkOpening.objects.count() == 1


def test_two_requests_of_one_link_note_one_opening(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    stage.sent()
    link, revision = Link.objects.get(), Revision.objects.get()
    note_opening(link=link, revision=revision, now=timezone.now())
    monkeypatch.setattr(type(LinkOpening.objects.none()), "exists", lambda rows: False)
    note_opening(link=link, revision=revision, now=timezone.now())
    assert LinkOpening.objects.count() == 1


@pytest.mark.both
def test_a_call_and_an_opening_never_change(stage: Stage) -> None:
    sent = stage.sent()
    rang(stage, sent["quote"])
    Phone(sent["link"]["url"])
    for rows in (FollowUp.objects.all(), LinkOpening.objects.all()):
        with pytest.raises(IntegrityError), transaction.atomic():
            rows.delete()
    with pytest.raises(IntegrityError), transaction.atomic():
        FollowUp.objects.update(outcome="no_answer")


def test_the_number_of_queries_does_not_grow_with_the_list(stage: Stage, clock: Any) -> None:
    rang(stage, stage.sent()["quote"])
    clock(4)
    few = queries(lambda: stage.client.get("counter"))
    clock(0)
    for _ in range(3):
        rang(stage, stage.sent(stage.turbo)["quote"])
    clock(4)
    assert len(follow_up(stage)) == 4 and queries(lambda: stage.client.get("counter")) == few
