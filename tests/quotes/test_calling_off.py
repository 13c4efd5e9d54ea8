"""A job is called off with its reason: the screen lists what can go back and what is owed, and its kits go to the
shelf.
"""

import pytest

from kitting.models import KitCopy, PullLine, PullList
from shop.models import History, Job
from tests.kitting.stage import Phone as CountingPhone
from tests.kitting.stage import send as send_counts
from tests.quotes.changing import begin, job_of, off, send, text_line
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


@pytest.fixture
def phone(stage: Stage) -> Phone:
    phone = Phone(stage.sent()["link"]["url"])
    phone.answer()
    return phone


def call_off(stage: Stage, role: str = "advisor") -> int:
    job = Job.objects.get()
    answer = stage.cast.signed_in(role).post(f"jobs/{job.pk}/call-off", {"because": "Sold the vehicle"})
    return answer.status_code


def test_a_job_that_is_called_off_says_so_on_its_link(stage: Stage, phone: Phone) -> None:
    assert call_off(stage) == 200 and Job.objects.get().state == "called_off"
    page = phone.client.get(phone.page).content.decode()
    assert "This job was called off." in page and "counted and checked" not in page
    line = History.objects.get(verb="called off")
    assert line.changes["reason"] == ["", "Sold the vehicle"]
    assert call_off(stage) == 409


def test_the_kits_go_to_the_shelf_with_their_lines_and_the_list_closes(stage: Stage, phone: Phone) -> None:
    lines = PullLine.objects.exclude(copy=None).count()
    call_off(stage)
    assert set(KitCopy.objects.values_list("purpose", "job")) == {("shelf", None)}
    assert PullLine.objects.filter(copy__purpose="shelf").count() == lines
    assert PullList.objects.get().state == "closed"


def test_a_change_that_is_out_is_withdrawn(stage: Stage, phone: Phone) -> None:
    change = Phone(send(stage, text_line(stage, begin(stage, Job.objects.get())))["link"]["url"])
    call_off(stage)
    assert change.answer().status_code == 410


def test_what_was_counted_can_go_back(stage: Stage, phone: Phone) -> None:
    job, pull_list = Job.objects.get(), PullList.objects.get()
    line = PullLine.objects.filter(pull_list=pull_list, kind="box").order_by("position")[0]
    send_counts(stage.client, pull_list, CountingPhone(pull_list).event(line))
    left = stage.client.get(f"jobs/{job.pk}/call-off").json()
    assert [row["number"] for row in left["back"]] == [line.number]
    assert (left["received"], left["outside"]) == (None, [])


def test_the_bay_reads_without_a_price_whether_extra_work_may_go_ahead(stage: Stage) -> None:
    job = job_of(stage)
    change = text_line(stage, begin(stage, job))
    off(stage, begin(stage, job), "Towing kit")
    answer = stage.cast.signed_in("technician").get(f"jobs/{job.pk}/extra-work").json()
    assert [row["verdict"] for row in answer["changes"]] == ["ask_first", "ask_first"]
    assert answer["words"].startswith("Ask first")
    assert Phone(send(stage, change)["link"]["url"]).answer().status_code == 303
    answer = stage.cast.signed_in("technician").get(f"jobs/{job.pk}/extra-work").json()
    assert [(row["titles"], row["verdict"]) for row in answer["changes"]] == [
        (["Bracket made"], "agreed"),
        (["Removed: Towing kit"], "ask_first"),
    ]
    assert "90" not in str(answer["changes"][0]["titles"]) and "gross" not in answer["changes"][0]
