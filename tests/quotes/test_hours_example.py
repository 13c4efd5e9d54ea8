"""While a manager edits the opening hours, one quote of the shop shows its date by them. Nothing is written."""

from typing import Any

import pytest

from shop.models import Calendar, ClosedDay, Command, History
from tests.quotes import dated
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once
clock, stage = dated.clock, dated.stage
MORNINGS = [{"day": day, "spans": [{"opens": "8", "closes": "12"}]} for day in ("mon", "tue", "wed", "thu", "fri")]


def example(stage: Stage, week: Any = MORNINGS, **others: Any) -> Any:
    return stage.cast.signed_in("manager").post("opening-hours/example", {"week": week, **others})


def compared(answer: Any) -> tuple[str, str, bool]:
    assert answer.status_code == 200, answer.content
    [figure] = answer.json()["figures"]
    return figure["now"], figure["then"], figure["moved"]


def test_a_quote_shows_what_the_hours_do_to_its_date_before_they_are_saved(stage: Stage) -> None:
    """The parts come on Thu 10 Dec: 8.7 h take two days of 8 h, and three mornings of 4 h."""
    quote = stage.quote().json()
    stored = [list(model.objects.values()) for model in (Calendar, History, Command)]
    answer = example(stage)
    assert answer.json()["quote"] == quote["id"]
    assert answer.json()["words"].startswith(f"{quote['number']} if it were accepted now")
    assert compared(answer) == (dated.ready(quote), "Mon 14 Dec, in the morning", True)
    assert [list(model.objects.values()) for model in (Calendar, History, Command)] == stored


def test_hours_that_begin_after_the_date_move_nothing(stage: Stage) -> None:
    stage.quote()
    now, then, moved = compared(example(stage, valid_from="2027-11-30"))
    assert now == then and not moved


def test_the_hours_of_a_later_day_stay(stage: Stage) -> None:
    """Hours typed for today apply until the next hours that are already entered."""
    stage.quote()
    assert compared(example(stage))[2]
    Calendar.objects.create(shop=stage.shop, valid_from=dated.local(4).date(), week={"mon": [["08:00", "17:00"]]})
    now, then, moved = compared(example(stage))
    assert now == then and not moved


def test_a_quote_without_a_date_says_why_once(stage: Stage) -> None:
    dated.leads(stage.turbo, None)
    stage.quote()
    answer = example(stage).json()
    assert answer["figures"] == [] and answer["words"].startswith("Q-1: No date yet"), answer["words"]


def test_a_day_shows_what_closing_it_does_before_it_is_closed(stage: Stage) -> None:
    """The work needs Thu 10 and Fri 11 Dec."""
    manager = stage.cast.signed_in("manager")

    def closed(first: str, last: str | None = None) -> Any:
        return manager.post("closed-days/example", {"first": first, "last": last})

    assert closed("2026-12-10").json()["words"].startswith("There is no quote yet")
    quote = stage.quote().json()
    stored = [list(model.objects.values()) for model in (ClosedDay, History, Command)]
    assert compared(closed("2026-12-10")) == (dated.ready(quote), "Mon 14 Dec, in the afternoon", True)
    assert closed("2026-12-10").json()["words"].endswith("with 10 Dec closed.")
    longer = closed("2026-12-10", "2026-12-11")
    assert compared(longer)[1].startswith("Tue 15 Dec") and longer.json()["words"].endswith("10 Dec to 11 Dec closed.")
    assert not compared(closed("2027-03-01"))[2]
    assert closed("2026-12-10", "2026-12-09").json()["errors"][0]["pointer"] == "/last"
    assert [list(model.objects.values()) for model in (ClosedDay, History, Command)] == stored
    ClosedDay.objects.create(shop=stage.shop, date=dated.local(10).date())
    assert compared(closed("2026-12-11"))[1].startswith("Tue 15 Dec"), "days that are closed already stay closed"


def test_holidays_that_are_ticked_together_show_their_effect(stage: Stage) -> None:
    manager = stage.cast.signed_in("manager")

    def ticked(*days: str) -> Any:
        return manager.post("holidays/example", {"days": [{"date": day, "reason": "Fair"} for day in days]})

    assert ticked("2026-12-10").json()["words"].startswith("There is no quote yet")
    quote = stage.quote().json()
    stored = [list(model.objects.values()) for model in (ClosedDay, History, Command)]
    assert ticked("2026-12-10").json()["words"].endswith("with 10 Dec closed.")
    answer = ticked("2026-12-14", "2026-12-10", "2027-06-01")
    assert answer.json()["words"].endswith("with these 3 days closed.")
    assert compared(answer) == (dated.ready(quote), "Tue 15 Dec, in the afternoon", True)
    assert ticked().json()["errors"][0]["pointer"] == "/days"
    assert [list(model.objects.values()) for model in (ClosedDay, History, Command)] == stored


def test_what_cannot_be_read_is_refused_as_when_it_is_saved(stage: Stage) -> None:
    assert example(stage, []).json()["errors"][0]["pointer"] == "/week"
    assert example(stage, valid_from="2026-11-30").json()["errors"][0]["pointer"] == "/valid_from"


def test_a_shop_without_quotes_says_so(stage: Stage) -> None:
    answer = example(stage).json()
    assert answer["quote"] is None and answer["figures"] == [] and "no quote yet" in answer["words"]
