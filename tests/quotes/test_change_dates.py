"""A change shows the job's new day at the counter and on its page before the customer agrees."""

from typing import Any

import pytest

from kitting.models import Kit
from shop.models import Job
from tests.quotes.changing import accept, begin, off, text_line
from tests.quotes.changing import send as send_change
from tests.quotes.dated import Clock, clock, leads, local, send, stage
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

__all__ = ["clock", "stage"]
pytestmark = pytest.mark.once


@pytest.fixture
def job(stage: Stage) -> Job:
    """Opened on Tue 1 Dec by the acceptance of the towing kit."""
    assert stage.as_before(_accepted) == 303
    return Job.objects.get()


def _accepted(stage: Stage, _: Any) -> int:
    return Phone(send(stage, stage.quote(stage.towing).json())["link"]["url"]).answer().status_code


def with_kit(stage: Stage, change: dict[str, Any], kit: Kit) -> dict[str, Any]:
    answer: dict[str, Any] = stage.client.post(
        f"quotes/{change['id']}/lines", {"kind": "kit", "kit": str(kit.pk)}
    ).json()
    return answer


def expected(stage: Stage, job: Job) -> str:
    words: str = stage.client.get(f"jobs/{job.pk}/told-dates").json()["expected"]["words"]
    return words


def test_it_says_the_days_that_it_adds_and_the_job_then_has_that_date(stage: Stage, job: Job) -> None:
    leads(stage.turbo, 15)
    before = expected(stage, job)
    change = with_kit(stage, begin(stage, job), stage.turbo)
    words = change["change"]["date"]
    assert words.startswith("This adds ") and words.endswith(f" instead of {before}.")
    link = send_change(stage, change)["link"]["url"]
    phone = Phone(link)
    assert words in phone.html
    assert stage.client.get(f"quotes/{change['id']}").json()["change"]["date"] == words
    assert phone.answer().status_code == 303
    assert f": ready {expected(stage, job)} instead" in words
    assert stage.client.get(f"quotes/{change['id']}").json()["change"]["date"] == ""
    assert words not in phone.client.get(phone.page).content.decode()


def test_what_is_added_later_is_expected_from_the_day_it_was_agreed(stage: Stage, job: Job, clock: Clock) -> None:
    """Added two weeks after the job was opened: its five days are not over yet."""
    clock(local(14))
    accept(stage, with_kit(stage, begin(stage, job), stage.turbo))
    missing = stage.client.get(f"jobs/{job.pk}/readiness").json()["missing"]
    assert "expected Mon 21 Dec if ordered today" in {row["due_words"] for row in missing}


def test_work_that_holds_nothing_up_leaves_the_date(stage: Stage, job: Job) -> None:
    change = text_line(stage, begin(stage, job))
    assert change["change"]["date"] == f"The date stays: ready {expected(stage, job)}."


def test_a_change_that_takes_something_off_names_no_date(stage: Stage, job: Job) -> None:
    change = off(stage, begin(stage, job), stage.towing.title)
    assert change["taken"] and change["change"]["date"] == ""
    html = accept(stage, change).html
    assert "The date stays" not in html and "We cannot give a date" not in html  # it is that of the job


def test_a_part_of_the_change_without_a_date_leaves_the_job_without_one(stage: Stage, job: Job) -> None:
    leads(stage.turbo, None)
    assert with_kit(stage, begin(stage, job), stage.turbo)["change"]["date"] == ""
