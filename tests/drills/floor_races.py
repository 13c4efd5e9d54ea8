"""Races for a pull list, a file, and the tries to sign in."""

import uuid
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from typing import Any

from django.utils import timezone

from kitting.calc.counting import fold
from kitting.models import CountEvent, PullLine, PullList
from kitting.services.counting import store_batch
from kitting.services.pull_lists import close_pull_list, reopen_pull_list
from shop.models import Customer, FileRead, History, Job, SignInTry
from shop.services import imports
from tests.api.test_throttle import guess
from tests.client import CheckedClient
from tests.drills.racing import MANY, OF_NO_QUOTE, race
from tests.drills.test_backup import counted, folded
from tests.factories import JobFactory, PullLineFactory, PullListFactory
from tests.imports.test_api import give
from tests.kitting.stage import Phone, pull
from tests.quotes.stage import Stage

SIGN_IN_TRIES = 3


def counts_of_one_line(stage: Stage) -> None:
    """Different totals for one line, none aware of another: all are kept, and somebody has to count again."""
    pull_list, line = _list(stage)
    actor, phones = stage.cast.acting("parts"), [Phone(pull_list) for _ in range(MANY)]
    events = [phone.event(line, total=total) for total, phone in enumerate(phones)]
    acts = [_stored(actor, pull_list, [event]) for event in events]
    assert Counter(race(*acts, *acts)) == {("stored",): MANY, ("duplicate",): MANY}
    log = _whole_log(stage, pull_list)
    assert {event["id"] for event in log["events"]} == {event["id"] for event in events}
    assert fold(counted(log["events"]))[str(line.pk)].confirm


def counts_and_closing(stage: Stage) -> None:
    """A count is in the list that was closed, or it is late; closing and opening never lose one."""
    pull_list, line = _list(stage)
    actor, phones = stage.cast.acting("parts"), [Phone(pull_list) for _ in range(3)]

    def close() -> str:
        seq = PullList.objects.get(pk=pull_list.pk).last_seq
        close_pull_list(actor=actor, pull_list=pull_list, seq=seq, now=timezone.now())
        return "done"

    acts = [_stored(actor, pull_list, [phone.event(line, total=4), phone.event(line, total=3)]) for phone in phones]
    *stored, closed, again = race(*acts, close, close)
    assert {closed, again} <= {"done", "more-has-come", "list-is-closed"} and [closed, again].count("done") <= 1
    assert set(stored) <= {("stored",) * 2, ("late",) * 2}
    log, row = _whole_log(stage, pull_list), PullList.objects.get(pk=pull_list.pk)
    late = [event["late"] for event in log["events"]]
    assert late == sorted(late) and late.count(True) == 2 * stored.count(("late",) * 2)
    assert (row.state == "closed") == ("done" in (closed, again)) and (row.state == "closed" or True not in late)
    race(*[lambda: reopen_pull_list(actor=actor, pull_list=pull_list)] * 2)
    turns = History.objects.filter(subject_id=pull_list.pk, verb="open").count()
    assert turns == (1 if row.state == "closed" else 0)


def _list(stage: Stage) -> tuple[PullList, PullLine]:
    shop = stage.cast.shop
    job = JobFactory(shop=shop, number=OF_NO_QUOTE + Job.objects.filter(number__gte=OF_NO_QUOTE).count())
    line = PullLineFactory(shop=shop, pull_list=PullListFactory(shop=shop, job=job))
    return line.pull_list, line


def _stored(actor: Any, pull_list: PullList, events: list[Any]) -> Callable[[], tuple[str, ...]]:
    def act() -> tuple[str, ...]:
        results = store_batch(actor=actor, pull_list=pull_list, events=events, now=timezone.now())
        return tuple(result.status for result in results)

    return act


def _whole_log(stage: Stage, pull_list: PullList) -> dict[str, Any]:
    """The list's log without a gap, whose digest is that of its own events."""
    log = pull(stage.cast.signed_in("parts"), pull_list, limit=500)
    assert [event["seq"] for event in log["events"]] == list(range(1, log["seq"] + 1))
    assert log["digest"] == folded(log["events"]) and not log["more"]
    assert CountEvent.objects.filter(pull_list=pull_list).count() == log["seq"]
    return log


def imports_of_one_file(stage: Stage) -> None:
    actor, name = stage.cast.acting("advisor"), f"Ada Quill {uuid.uuid4().hex[:8]}"
    file = _file(stage, name)
    outcomes = race(*[_taken(actor, file)] * 3)
    assert Counter(outcomes) == {"done": 1, "import-taken-already": 2}
    assert Customer.objects.filter(name=name).count() == 1
    assert FileRead.objects.get(pk=file.pk).state == "taken"


def import_and_removal_of_one_file(stage: Stage) -> None:
    """Imported and still in the list, or removed and never imported."""
    actor, name = stage.cast.acting("advisor"), f"Bo Tarn {uuid.uuid4().hex[:8]}"
    file = _file(stage, name)

    def remove() -> str:
        imports.remove(actor=actor, file=FileRead.objects.get(pk=file.pk))
        return "done"

    taken, removed = race(_taken(actor, file), remove)
    left = FileRead.objects.filter(pk=file.pk).first()
    assert (taken, removed) in {("done", "import-taken-already"), ("not-found", "done")}
    assert (taken == "done") == bool(left) == (Customer.objects.filter(name=name).count() == 1)
    assert (removed == "done") == (left is None) and (left is None or left.state == "taken")


def _file(stage: Stage, name: str) -> FileRead:
    answer = give(stage.client, "customers", f"Name;Phone\n{name};01632 960 401\n")
    return FileRead.objects.get(pk=answer.json()["id"])


def _taken(actor: Any, file: FileRead) -> Callable[[], str]:
    reading = imports.read_again(actor=actor, file=file)

    def act() -> str:
        imports.take_in(actor=actor, file=FileRead(pk=file.pk), reading=reading)
        return "done"

    return act


def tries_to_sign_in(stage: Stage) -> None:
    """However many guess at once from one address, no more passwords are looked at than the limit.

    503 while others are being hashed: no try either.
    """
    SignInTry.objects.update(tried_at=timezone.now() - timedelta(hours=1))
    acts = [lambda: guess(CheckedClient(), "manager", "203.0.113.9")] * (2 * SIGN_IN_TRIES)
    statuses = Counter(race(*acts))
    assert set(statuses) <= {401, 429, 503} and statuses[401] <= SIGN_IN_TRIES
    recent = SignInTry.objects.filter(tried_at__gt=timezone.now() - timedelta(minutes=15))
    assert recent.count() == statuses[401], "a refused try was counted"


RACES = [counts_of_one_line, counts_and_closing, imports_of_one_file, import_and_removal_of_one_file, tries_to_sign_in]
