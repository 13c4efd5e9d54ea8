"""A date that moves after the acceptance: a person tells the customer, and their page says so."""

from datetime import date
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from kitting.models import PullLine
from quotes.models import Quote, ToldDate
from shop.models import Customer, History, Job, Outbox
from shop.outbox import worker
from tests.quotes import dated
from tests.quotes.changing import accept, begin, text_line
from tests.quotes.dated import Clock, local, send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage
BEFORE, LATER = "Fri 11 Dec, afternoon", "Tue 15 Dec, morning"
WHY = "we are waiting for Towing kit, due Mon 14 Dec"
MOVED = f"We now expect your vehicle to be ready {LATER}, instead of {BEFORE}: {WHY}."


@pytest.fixture
def phone(stage: Stage) -> Phone:
    """The customer has accepted; the vehicle is promised for Fri 11 Dec, in the afternoon."""
    return Phone(stage.as_before(_accepted))


def _accepted(stage: Stage, _: Any) -> str:
    """The link of the accepted quote."""
    phone = Phone(send(stage, stage.quote().json())["link"]["url"])
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    return phone.url


def path() -> str:
    return f"jobs/{Job.objects.get().pk}/told-dates"


def read(stage: Stage) -> dict[str, Any]:
    answer = stage.client.get(path())
    assert answer.status_code == 200, answer.content
    return answer.json()


def comes_later(day: str = "2026-12-14") -> None:
    """Somebody at the supplier says that the towing kit comes on that day."""
    PullLine.objects.filter(kit="QF-T").update(due_at=f"{day}T09:00:00Z")


def tell(stage: Stage, **fields: Any) -> Any:
    return stage.client.post(
        path(), {"ready_on": "2026-12-15", "half": "morning", "words": MOVED, "means": "phone"} | fields
    )


def test_nothing_has_moved_on_the_day_of_the_yes(stage: Stage, phone: Phone) -> None:
    answer = read(stage)
    assert (answer["moved"], answer["counted_on"]["words"], answer["expected"]["words"]) == (False, BEFORE, BEFORE)
    assert answer["told"] == [] and "no longer" not in answer["draft"]


def test_a_later_delivery_drafts_one_sentence_with_its_reason_and_tells_nobody(stage: Stage, phone: Phone) -> None:
    comes_later()
    answer = read(stage)
    assert (answer["moved"], answer["expected"]["words"], answer["draft"]) == (True, LATER, MOVED)
    assert not ToldDate.objects.exists() and not Outbox.objects.filter(kind="moved_date").exists()
    assert "no longer" not in phone.client.get(phone.page).content.decode()


def test_told_by_phone_stands_on_the_customers_page_with_its_day(stage: Stage, phone: Phone, clock: Clock) -> None:
    comes_later()
    clock(local(7))
    answer = tell(stage)
    assert answer.status_code == 201, answer.content
    (row,) = answer.json()["told"]
    assert (row["means"], row["told_by"], row["ready_on"]) == ("phone", stage.cast.advisor.user.name, "2026-12-15")
    assert (answer.json()["moved"], answer.json()["counted_on"]["words"]) == (False, LATER)
    for page in (phone.page, f"{phone.page}receipt"):
        html = phone.client.get(page).content.decode()
        assert f'<th scope="row">Mon 7 Dec 2026</th><td>{MOVED}</td>' in html
    receipt = html.split('id="s-ready"')[1]
    assert MOVED in receipt  # beside the date of the day of acceptance
    assert not Outbox.objects.filter(kind="moved_date").exists()
    assert History.objects.get(verb="date told").changes["ready_on"] == ["", "2026-12-15"]


def test_it_goes_by_mail_once_as_the_person_wrote_it(stage: Stage, phone: Phone, mailoutbox: list[Any]) -> None:
    Customer.objects.update(email="maren@mail.example")
    words = "Your vehicle is ready on Tuesday. The towing kit is late, we are sorry."
    assert tell(stage, means="mail", words=words).status_code == 201
    while worker.send_next():
        pass
    (message,) = mailoutbox
    assert message.to == ["maren@mail.example"] and message.subject == "A new date for Q-1: Saltmarsh Lane Motor Works"
    assert words in message.body and "1,0" not in message.body
    mails = stage.client.get(f"quotes/{Quote.objects.get().pk}/mails").json()["items"]
    assert [mail["kind"] for mail in mails] == ["moved_date"]


def test_without_an_address_there_is_no_mail_and_no_row(stage: Stage, phone: Phone) -> None:
    assert "no e-mail address" in read(stage)["notes"][0]
    refused = tell(stage, means="mail")
    assert (refused.status_code, refused.json()["type"].rpartition("/")[2]) == (409, "no-mail-address")
    assert not ToldDate.objects.exists()


def test_a_second_move_is_measured_against_what_was_told_last(stage: Stage, phone: Phone) -> None:
    comes_later()
    tell(stage)
    comes_later("2026-12-16")
    answer = read(stage)
    assert answer["moved"] and f"instead of {LATER}" in answer["draft"]
    assert tell(stage, ready_on="2026-12-17", half="morning", words="Thursday.").status_code == 201
    assert [row["words"] for row in read(stage)["told"]] == ["Thursday.", MOVED]


@pytest.mark.both
def test_no_date_is_told_too(stage: Stage, phone: Phone) -> None:
    with transaction.atomic():
        dated.leads(stage.towing, None)
    answer = read(stage)
    assert (answer["moved"], answer["expected"]) == (True, None)
    words = (
        f"We can no longer give a date for your vehicle; it was {BEFORE}: there is no delivery date yet for Towing kit."
    )
    assert answer["draft"] == words and "Towing kit" in answer["no_date"]
    answer = tell(stage, ready_on=None, words=words).json()
    assert (answer["counted_on"], answer["moved"], answer["told"][0]["half"]) == (None, False, None)


def test_more_work_is_the_reason_where_nothing_is_awaited(stage: Stage, phone: Phone) -> None:
    change = text_line(stage, begin(stage, Job.objects.get()))
    accept(stage, change)
    PullLine.objects.update(retired_at=local(1))  # nothing is awaited any more
    answer = read(stage)
    assert answer["moved"] and answer["draft"].endswith(f"instead of {BEFORE}: you agreed to more work.")


def test_a_job_that_ended_has_no_date_to_tell(stage: Stage, phone: Phone) -> None:
    tell(stage)
    Job.objects.update(state="handed_over", in_bay_on=date(2026, 12, 10), handed_over_on=date(2026, 12, 11))
    answer = read(stage)
    assert not answer["open"] and len(answer["told"]) == 1
    assert tell(stage).json()["type"].rpartition("/")[2] == "no-date-to-tell"


def test_in_the_bay_the_person_is_told_what_the_date_counts(stage: Stage, phone: Phone) -> None:
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 10))
    assert "counts all of them" in read(stage)["notes"][0]


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"words": " "}, "/words"),
        ({"words": "x" * 401}, "/words"),
        ({"means": "letter"}, "/means"),
        ({"half": "noon"}, "/half"),
        ({"ready_on": "2126-01-01"}, "/ready_on"),
    ],
)
def test_a_sentence_that_cannot_be_kept_is_refused(
    stage: Stage, phone: Phone, fields: dict[str, Any], pointer: str
) -> None:
    refused = tell(stage, **fields)
    assert refused.status_code == 400 and refused.json()["errors"][0]["pointer"] == pointer


@pytest.mark.both
def test_the_row_never_changes(stage: Stage, phone: Phone) -> None:
    tell(stage)
    for act in (lambda: ToldDate.objects.update(words="Never said"), lambda: ToldDate.objects.all().delete()):
        with pytest.raises(IntegrityError, match="told_date_never_changes"), transaction.atomic():
            act()


def test_reading_asks_no_more_for_more_told_dates(stage: Stage, phone: Phone) -> None:
    tell(stage)
    few = queries(lambda: stage.client.get(path()))
    for _ in range(5):
        tell(stage)
    assert queries(lambda: stage.client.get(path())) == few


def test_a_vehicle_counts_for_the_week_of_the_date_that_its_customer_was_told_last(stage: Stage, phone: Phone) -> None:
    draft = stage.quote().json()

    def others_after(day: str | None) -> str | None:
        assert tell(stage, ready_on=day).status_code == 201
        others: str | None = stage.client.get(f"quotes/{draft['id']}").json()["promise"]["others"]
        return others

    assert others_after("2026-12-15") is None  # the week after
    assert others_after("2026-12-10") == "1 other vehicle is promised that week."
    assert others_after(None) is None
