"""After the acceptance the link says in dated sentences where the vehicle stands, until 30 days after hand-over."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.utils import timezone

from kitting.models import PullList
from quotes.calc.link_life import last_moment
from quotes.models import Link
from shop.models import Job
from shop.presenters.dates import day_words
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

END = datetime(2026, 3, 1, tzinfo=UTC)


@pytest.mark.parametrize(
    ("has_job", "ended_on", "last"),
    [
        (False, None, END),
        (True, None, None),
        (True, date(2026, 1, 5), datetime(2026, 2, 4, 22, 59, 59, tzinfo=UTC)),
        (True, date(2026, 6, 5), datetime(2026, 7, 5, 21, 59, 59, tzinfo=UTC)),
    ],
)
def test_a_link_lives_with_its_job(has_job: bool, ended_on: date | None, last: datetime | None) -> None:
    assert last_moment(END, has_job=has_job, ended_on=ended_on, zone="Europe/Berlin") == last


def accepted(stage: Stage) -> Phone:
    phone = Phone(stage.sent()["link"]["url"])
    assert phone.answer().status_code == 303
    return phone


def page_on(phone: Phone, monkeypatch: pytest.MonkeyPatch, moment: datetime) -> int:
    monkeypatch.setattr(timezone, "now", lambda: moment)
    return FormClient().get(phone.url).status_code


def test_the_link_of_an_open_job_works_past_its_own_end(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    phone = accepted(stage)
    assert page_on(phone, monkeypatch, Link.objects.get().expires_at + timedelta(days=100)) == 303


def test_the_link_ends_30_days_after_hand_over(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    phone, today = accepted(stage), timezone.now()
    Job.objects.update(state="handed_over", in_bay_on=today.date(), handed_over_on=today.date())
    assert page_on(phone, monkeypatch, today + timedelta(days=29)) == 303
    assert page_on(phone, monkeypatch, today + timedelta(days=32)) == 410
    assert phone.client.get(phone.page).status_code == 410


def test_the_link_says_where_the_vehicle_stands(stage: Stage) -> None:
    phone = accepted(stage)
    words = "We have counted and checked the parts for your vehicle.", "Your vehicle is in the bay; work has begun."
    for where in ("", "receipt"):
        page = phone.client.get(f"{phone.page}{where}").content.decode()
        assert "You accepted our quote." in page and not any(sentence in page for sentence in words)
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 7))
    PullList.objects.update(state="closed", closed_at=timezone.now(), closed_by=stage.cast.advisor)
    for where in ("", "receipt"):
        page = phone.client.get(f"{phone.page}{where}").content.decode()
        assert all(sentence in page for sentence in words) and day_words(date(2026, 12, 7)) in page
        below = "What you agreed to" if where else 'id="s-kits"'
        assert page.index("Where your vehicle stands") < page.index(below)
        assert "before you accept" not in page


def test_the_page_before_the_answer_says_nothing_of_a_job(stage: Stage) -> None:
    assert "Where your vehicle stands" not in Phone(stage.sent()["link"]["url"]).html


def test_lists_and_the_quote_show_the_state_of_the_job(stage: Stage) -> None:
    accepted(stage)
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 7))
    quote = stage.client.get("quotes").json()["items"][0]
    assert quote["job_state"] == "in_bay"
    whole = stage.client.get(f"quotes/{quote['id']}").json()
    assert whole["job"]["state"] == "in_bay" and whole["links"][0]["expires_at"] is None
    Job.objects.update(state="handed_over", handed_over_on=date(2026, 12, 9))
    whole = stage.client.get(f"quotes/{whole['id']}").json()
    assert (whole["promise"], whole["no_promise"]) == (None, "Handed over Wed 9 Dec 2026.")
