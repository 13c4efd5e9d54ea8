"""Two people open one link, somebody goes back to the page, and an answer is sent a second time from elsewhere."""

from html import unescape

import pytest

from quotes.models import Decision
from shop.models import Job
from shop.queries.calendar import shop_day
from tests.forms import FormClient
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

FIRST = {"HTTP_USER_AGENT": "Anwen's telephone", "REMOTE_ADDR": "203.0.113.7"}


@pytest.fixture
def url(stage: Stage) -> str:
    return str(stage.sent()["link"]["url"])


def read(phone: Phone, path: str = "") -> str:
    return unescape(phone.client.get(phone.page + path).content.decode())


def test_whoever_answers_second_on_a_forwarded_link_reads_who_answered_and_when(url: str) -> None:
    """Both have the page open.

    The second acceptance changes nothing, and shows nothing of the first person's browser.
    """
    first, second = Phone(url), Phone(url)
    first.client.defaults |= FIRST
    assert first.answer(name="Anwen Holloway").status_code == 303
    late = second.answer(name="Maren Oldacre")
    assert (late.status_code, late["Location"]) == (303, f"{second.page}receipt")
    decision = Decision.objects.get()
    assert (decision.record["name"], Job.objects.count()) == ("Anwen Holloway", 1)
    receipt = read(second, "receipt")
    day = shop_day(decision.shop, decision.answered_at)
    assert f"Accepted by Anwen Holloway on {day:%a} {day.day} " in receipt
    assert "Maren Oldacre" not in receipt.split("<main")[-1].split("Accepted by")[1].split("</p>")[0]
    assert not any(fact in receipt + read(second) for fact in (FIRST["HTTP_USER_AGENT"], FIRST["REMOTE_ADDR"]))


def test_a_no_after_somebody_elses_yes_takes_nothing_back(url: str) -> None:
    first, second = Phone(url), Phone(url)
    first.answer(name="Anwen Holloway")
    late = second.answer("decline", name="Maren Oldacre", consent=())
    assert Decision.objects.get().answer == "accepted"
    text = read(second, "receipt") if late.status_code == 303 else unescape(late.content.decode())
    assert "Accepted by Anwen Holloway" in text or "See your answer" in text


def test_going_back_after_the_yes_shows_that_it_was_accepted_and_asks_for_nothing(url: str) -> None:
    phone = Phone(url)
    phone.answer()
    page = read(phone)
    assert "This quote was accepted." in page and "See your answer" in page
    assert 'name="answer" value="accept"' not in page and 'name="digest"' not in page
    assert phone.answer()["Location"] == f"{phone.page}receipt"  # from the page that the browser kept
    assert Decision.objects.count() == 1


def test_an_answer_that_is_replayed_without_the_links_cookie_does_nothing(url: str) -> None:
    phone = Phone(url)
    body = {"revision": phone.field("revision"), "digest": phone.field("digest"), "name": "Anwen Holloway"}
    body |= {"consent": "road", "answer": "accept", "csrfmiddlewaretoken": phone.field("csrfmiddlewaretoken")}
    elsewhere = FormClient()
    answer = elsewhere.post(f"{phone.page}answer", body, headers={"Origin": "http://testserver"})
    assert answer.status_code == 410 and not Decision.objects.exists()
    assert "Turbocharger kit" not in answer.content.decode()
