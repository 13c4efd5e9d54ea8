"""The list of quotes by state: which quotes it holds, and in which order."""

from datetime import datetime, timedelta
from itertools import count
from typing import Any

import pytest
from django.utils import timezone

from quotes.models import Quote, Revision
from shop.models import RuleSet
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

FROZEN = {"snapshot": "{}", "digest": "0" * 64, "pdf_sha256": "0" * 64, "net": 0, "tax": 0, "gross": 0}
NUMBERS = count(100)
DAY = timedelta(days=1)


def quote(stage: Stage, now: datetime, *states: str, valid: int = 14, changed: int = 0) -> str:
    """Number of a quote with a version in each of these states, valid for so many days and changed so long ago."""
    shop, advisor = stage.cast.shop, stage.cast.advisor
    row = Quote.objects.create(shop=shop, number=next(NUMBERS), advisor=advisor, created_at=now)
    rules = RuleSet.objects.get(shop=shop)
    for number, state in enumerate(states, start=1):
        revision = Revision.objects.create(
            shop=shop, quote=row, number=number, rules=rules, changed_by=advisor, changed_at=now - changed * DAY
        )
        if state != "draft":
            dates = {"sent_at": now, "valid_until": now + valid * DAY}
            Revision.objects.filter(pk=revision.pk).update(state=state, **FROZEN, **dates)
    return str(row)


def listed(stage: Stage, state: str, **query: Any) -> list[str]:
    return [item["number"] for item in stage.client.get("quotes", {"state": state, **query}).json()["items"]]


def test_sent_and_expired_quotes_go_by_their_last_day_and_others_by_their_last_change(stage: Stage) -> None:
    now = timezone.now()
    short, long = quote(stage, now, "sent", valid=3), quote(stage, now, "replaced", "sent", valid=30, changed=9)
    gone, long_gone = quote(stage, now, "sent", valid=-1, changed=40), quote(stage, now, "sent", valid=-30)
    older, newer = quote(stage, now, "draft", changed=2), quote(stage, now, "withdrawn", "draft", changed=1)
    assert listed(stage, "sent") == [long, short]
    assert listed(stage, "expired") == [gone, long_gone]
    assert listed(stage, "draft") == [newer, older]
    assert (listed(stage, "withdrawn"), listed(stage, "replaced")) == ([], [])


def test_the_next_page_of_sent_quotes_begins_where_the_first_ended(stage: Stage) -> None:
    now = timezone.now()
    numbers = [quote(stage, now, "sent", valid=days) for days in (9, 7, 7, 5)]
    first = stage.client.get("quotes", {"state": "sent", "limit": 2})
    second = stage.client.get(first["Link"].split(">")[0].removeprefix("<"))
    page_numbers = [item["number"] for page in (first, second) for item in page.json()["items"]]
    assert (page_numbers[0], page_numbers[-1]) == (numbers[0], numbers[-1])
    assert sorted(page_numbers) == sorted(numbers)
