"""Retention: a dated rule in months or years, told to the customer, after which discarded drafts are deleted."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from django.core.management import call_command
from django.utils import timezone

from quotes.models import Line, Quote
from shop.models import History
from shop.services.retention import months_before
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage


def discard(stage: Stage, quote: dict[str, Any], on: datetime) -> None:
    assert stage.client.delete(f"quotes/{quote['id']}", seen=f'"{quote["version"]}"').status_code == 204
    Quote.objects.filter(pk=quote["id"]).update(discarded_at=on)


def full_draft(stage: Stage) -> dict[str, Any]:
    """A draft with something of every kind that people choose."""
    quote = stage.quote().json()
    path = f"quotes/{quote['id']}"
    text = {"kind": "text", "title": "Polish", "unit_price": "40.00", "tax_class": "labour"}
    stage.client.post(f"{path}/lines", text)
    work = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.00", "tax_class": "labour"}
    stage.client.post(f"{path}/outside", work)
    choice = {"title": "Pads", "take": "any", "options": [{"title": "Road pads"}]}
    draft: dict[str, Any] = stage.client.post(f"{path}/choices", choice).json()
    return draft


def test_a_draft_discarded_longer_ago_than_the_retention_is_deleted(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    stage.enact(RULES | {"retention_months": 18})
    old, recent, open_one = (full_draft(stage) for _ in range(3))
    now = datetime(2026, 12, 1, 9, tzinfo=UTC)
    discard(stage, old, datetime(2025, 5, 31, 12, tzinfo=UTC))
    discard(stage, recent, datetime(2025, 6, 1, 12, tzinfo=UTC))
    sent = stage.sent()["quote"]["id"]
    monkeypatch.setattr(timezone, "now", lambda: now)
    call_command("purge", verbosity=0)
    left = {str(pk) for pk in Quote.objects.values_list("pk", flat=True)}
    assert left == {recent["id"], open_one["id"], sent}
    assert not Line.objects.filter(revision__quote=old["id"]).exists()
    assert History.objects.filter(subject_id=old["id"], verb="discarded").exists()


def test_another_shops_retention_is_its_own_and_without_rules_nothing_goes(stage: Stage) -> None:
    quote = stage.quote().json()
    discard(stage, quote, datetime(2025, 1, 1, tzinfo=UTC))
    call_command("purge", verbosity=0)  # 7 years, where nothing is ruled
    assert Quote.objects.filter(pk=quote["id"]).exists()


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        ({}, "for 7 years"),
        ({"retention_years": 1}, "for 1 year."),
        ({"retention_months": 18}, "for 18 months"),
        ({"retention_months": 24}, "for 2 years"),
    ],
)
def test_the_customer_reads_for_how_long_the_record_is_kept(stage: Stage, rule: dict[str, int], words: str) -> None:
    stage.enact(RULES | rule)
    assert words in Phone(stage.sent()["link"]["url"]).html


@pytest.mark.parametrize(
    ("day", "months", "before"),
    [
        (date(2026, 12, 31), 1, date(2026, 11, 30)),
        (date(2026, 3, 31), 1, date(2026, 2, 28)),
        (date(2028, 3, 30), 1, date(2028, 2, 29)),
        (date(2026, 1, 15), 1, date(2025, 12, 15)),
        (date(2026, 1, 15), 13, date(2024, 12, 15)),
        (date(2026, 5, 31), 84, date(2019, 5, 31)),
        (date(2026, 5, 31), 0, date(2026, 5, 31)),
        (date(2026, 5, 31), 99_999, date.min),
    ],
)
def test_months_are_counted_back_by_the_calendar(day: date, months: int, before: date) -> None:
    assert months_before(day, months) == before
