"""Many phones at once, on the database of the run: the list's lock keeps the seqs without gaps."""

from collections.abc import Callable
from typing import Any

import pytest
from django.utils import timezone

from kitting.models import CountEvent, PullList
from kitting.services.counting import store_batch
from kitting.services.pull_lists import close_pull_list
from shop.errors import RequestError
from tests.at_once import at_once
from tests.cast import Cast, make_cast
from tests.kitting.stage import Phone, list_of

pytestmark = pytest.mark.django_db(transaction=True)
PHONES, BATCHES, EVENTS = 8, 6, 5


@pytest.fixture
def crowd() -> Cast:
    return make_cast()


def sent_twice(cast: Cast, pull_list: PullList, line: Any) -> Callable[[], list[str]]:
    """A phone that sends each batch, hears no answer, and sends it again."""
    phone, actor = Phone(pull_list), cast.acting("parts")
    batches = [[phone.event(line) for _ in range(EVENTS)] for _ in range(BATCHES)]

    def work() -> list[str]:
        statuses = []
        for batch in batches:
            for _ in range(2):
                results = store_batch(actor=actor, pull_list=pull_list, events=batch, now=timezone.now())
                statuses += [result.status for result in results]
        return statuses

    return work


def test_eight_phones_at_once_leave_no_gap_and_no_double(crowd: Cast) -> None:
    pull_list, lines = list_of(crowd)
    answers = at_once(*(sent_twice(crowd, pull_list, lines[at % 3]) for at in range(PHONES)))
    assert answers == [(["stored"] * EVENTS + ["duplicate"] * EVENTS) * BATCHES] * PHONES
    pull_list.refresh_from_db()
    seqs = list(CountEvent.objects.filter(pull_list=pull_list).order_by("seq").values_list("seq", flat=True))
    assert seqs == list(range(1, PHONES * BATCHES * EVENTS + 1)) and pull_list.last_seq == seqs[-1]
    phones = list(CountEvent.objects.order_by("seq").values_list("device", "device_seq"))
    for device in {device for device, _ in phones}:
        numbers = [n for of, n in phones if of == device]
        assert numbers == sorted(numbers)


def test_one_batch_sent_by_eight_at_once_is_stored_once(crowd: Cast) -> None:
    pull_list, (line, *_) = list_of(crowd)
    phone, actor = Phone(pull_list), crowd.acting("parts")
    batch = [phone.event(line) for _ in range(EVENTS)]
    works = [lambda: store_batch(actor=actor, pull_list=pull_list, events=batch, now=timezone.now())] * PHONES
    answers = at_once(*works)
    statuses = sorted(result.status for results in answers for result in results)
    assert statuses == ["duplicate"] * EVENTS * (PHONES - 1) + ["stored"] * EVENTS
    assert {result.seq for results in answers for result in results} == set(range(1, EVENTS + 1))


def test_one_id_on_two_lists_at_once_is_stored_on_one(crowd: Cast) -> None:
    actor = crowd.acting("parts")

    def of(pull_list: PullList, line: Any, id: str) -> Callable[[], str]:
        events = [Phone(pull_list).event(line, id=id), Phone(pull_list).event(line)]
        return lambda: store_batch(actor=actor, pull_list=pull_list, events=events, now=timezone.now())

    for _ in range(6):
        (first_list, (first, *_)), (other, (second, *_)) = list_of(crowd), list_of(crowd)
        id = Phone(first_list).event(first)["id"]
        answers = at_once(of(first_list, first, id), of(other, second, id))
        assert sorted(results[0].problem or "" for results in answers) == ["", "id_reused"]
        assert [results[1].status for results in answers] == ["stored", "stored"]


def test_closing_among_counts_loses_nothing(crowd: Cast) -> None:
    pull_list, (line, *_) = list_of(crowd)
    actor = crowd.acting("parts")
    works = [sent_twice(crowd, pull_list, line) for _ in range(4)]

    def close() -> str:
        for _ in range(100):
            seen = PullList.objects.values_list("last_seq", flat=True).get(pk=pull_list.pk)
            try:
                return str(close_pull_list(actor=actor, pull_list=pull_list, seq=seen, now=timezone.now()).state)
            except RequestError:
                continue
        return "never"

    *answers, closed = at_once(*works, close)
    assert closed == "closed"
    statuses = [status for statuses_of in answers for status in statuses_of]
    assert set(statuses) <= {"stored", "late", "duplicate"} and statuses.count("duplicate") == len(statuses) / 2
    seqs = list(CountEvent.objects.order_by("seq").values_list("seq", "late"))
    assert [seq for seq, _ in seqs] == list(range(1, 4 * BATCHES * EVENTS + 1))
    late = [late for _, late in seqs]
    assert late == sorted(late)
