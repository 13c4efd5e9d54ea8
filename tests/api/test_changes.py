"""The change feed: each kind's number rises with the change, and only roles that may read the kind see it."""

import threading
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from quotes.calc.answer import AnswerForm
from quotes.models import Link, Quote
from quotes.services import drafts, revising, sending
from quotes.services.acceptance import accept_revision, decline_revision
from shop import access
from shop.models import ChangeNumber
from shop.services import feed, jobs
from tests.cast import Cast, make_cast
from tests.client import CheckedClient
from tests.factories import JobFactory
from tests.imports.test_api import PEOPLE, give
from tests.kitting.stage import Phone, list_of, send
from tests.quotes.stage import Stage, make_stage

Kind = ChangeNumber.Kind
AT_THE_COUNTER = {"drafts", "quotes"}  # the advisor's and the manager's alone
OF_EVERYONE = {"counts", "jobs", "pull-lists"}


def numbers(client: CheckedClient) -> dict[str, int]:
    answer = client.get("changes").json()
    numbers = {kind["kind"]: kind["number"] for kind in answer["kinds"]}
    assert answer["number"] == sum(numbers.values())
    return numbers


def raised(client: CheckedClient, act: Callable[[], Any]) -> set[str]:
    """The kinds whose numbers moved."""
    before = numbers(client)
    act()
    return {kind for kind, number in numbers(client).items() if number != before.get(kind, 0)}


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


@pytest.fixture
def manager(cast: Cast) -> CheckedClient:
    return cast.signed_in("manager")


# What raises which number


def test_a_quote_on_its_way_to_the_customer_and_back(stage: Stage, manager: CheckedClient) -> None:
    assert raised(manager, lambda: stage.quote(stage.turbo)) == {"drafts"}
    quote, actor = Quote.objects.get(), stage.cast.acting("advisor")
    assert raised(manager, lambda: drafts.add_kit(actor=actor, quote=quote, kit=stage.towing)) == {"drafts"}
    body = {"version": quote.revisions.get().version, "recipient": "01632 960 417"}
    assert raised(manager, lambda: stage.client.post(f"quotes/{quote.pk}/send", body)) == {"quotes"}
    assert raised(manager, lambda: revising.revise(actor=actor, quote=quote)) == {"quotes"}
    sent = quote.revisions.get(number=1)
    withdraw = lambda: sending.withdraw(actor=actor, quote=quote, revision_number=1, digest=sent.digest)  # noqa: E731
    assert raised(manager, withdraw) == {"quotes"}


def answered(stage: Stage, decide: Callable[..., Any]) -> Any:
    sent = stage.sent(stage.turbo)
    link = Link.objects.get(pk=sent["link"]["id"])
    answer = AnswerForm(1, sent["quote"]["digest"], "Maren Oldacre", ("road",), "127.0.0.1", "test")
    return lambda: decide(source=link, answer=answer, now=timezone.now())


def test_an_acceptance_opens_the_job_and_its_pull_list(stage: Stage, manager: CheckedClient) -> None:
    accept = answered(stage, accept_revision)
    assert raised(manager, accept) == {"jobs", "pull-lists", "quotes"}
    assert raised(manager, accept) == set()  # the same receipt for a repeat


def test_a_refusal_is_learnt_at_the_counter(stage: Stage, manager: CheckedClient) -> None:
    assert raised(manager, answered(stage, decline_revision)) == {"quotes"}


def test_counts_and_the_state_of_their_list(cast: Cast, manager: CheckedClient) -> None:
    pull_list, (line, *_) = list_of(cast)
    event = Phone(pull_list).event(line)
    parts, path = cast.signed_in("parts"), f"pull-lists/{pull_list.pk}"
    assert raised(manager, lambda: send(parts, pull_list, event)) == {"counts"}
    assert raised(manager, lambda: send(parts, pull_list, event)) == set()  # a duplicate is nothing new
    assert raised(manager, lambda: parts.post(f"{path}/close", {"seq": 1})) == {"pull-lists"}
    assert raised(manager, lambda: parts.post(f"{path}/reopen")) == {"pull-lists"}
    assert raised(manager, lambda: parts.post(f"{path}/reopen")) == set()


def test_a_due_day(cast: Cast, manager: CheckedClient) -> None:
    pull_list, lines = list_of(cast, 1)
    body = {"lines": [str(lines[0].pk)], "day": date.today().isoformat(), "time": "10:15"}
    assert raised(manager, lambda: manager.post(f"pull-lists/{pull_list.pk}/due", body)) == {"pull-lists"}


def test_the_day_a_vehicle_comes(cast: Cast, manager: CheckedClient) -> None:
    job, day, actor = JobFactory(shop=cast.shop), date(2026, 12, 1), cast.acting("advisor")
    change = lambda: jobs.change_job(actor=actor, job=job, seen=1, changes={"here_from": day}, today=day)  # noqa: E731
    assert raised(manager, change) == {"jobs"}


def test_a_file_that_is_read_and_imported(cast: Cast, manager: CheckedClient) -> None:
    read: list[Any] = []
    assert raised(manager, lambda: read.append(give(manager, "customers", PEOPLE).json())) == {"imports"}
    assert raised(manager, lambda: manager.post(f"imports/{read[0]['id']}/take-in")) == {"imports"}


def test_what_was_rolled_back_raises_nothing(cast: Cast, manager: CheckedClient) -> None:
    def fails() -> None:
        with pytest.raises(RuntimeError), transaction.atomic():
            feed.record(actor=cast.acting("advisor"), kind=Kind.JOBS)
            raise RuntimeError

    assert raised(manager, fails) == set()


# Who learns of it


@pytest.mark.parametrize(
    ("role", "kinds"),
    [
        ("manager", {*OF_EVERYONE, *AT_THE_COUNTER, "imports"}),
        ("advisor", {*OF_EVERYONE, *AT_THE_COUNTER, "imports"}),
        ("parts", {*OF_EVERYONE, "imports"}),
        ("technician", OF_EVERYONE),
    ],
)
def test_each_role_learns_of_the_kinds_it_may_read(cast: Cast, role: str, kinds: set[str]) -> None:
    for kind in Kind:
        feed.record(actor=cast.acting("manager"), kind=kind)
    assert set(numbers(cast.signed_in(role))) == kinds


def test_a_technician_is_not_woken_by_a_quote(cast: Cast) -> None:
    feed.record(actor=cast.acting("manager"), kind=Kind.JOBS)
    technician = cast.signed_in("technician")
    query = {"since": technician.get("changes").json()["number"]}
    feed.record(actor=cast.acting("manager"), kind=Kind.QUOTES)
    assert technician.get("changes", query).status_code == 304


def test_another_shop_has_numbers_of_its_own(cast: Cast) -> None:
    feed.record(actor=access.Actor(cast.elsewhere, cast.stranger), kind=Kind.JOBS)
    assert numbers(cast.signed_in("manager")) == {}


# since and epoch


def test_nothing_new_is_304_without_a_body(cast: Cast, manager: CheckedClient) -> None:
    for changes in range(2):
        counted = manager.get("changes").json()
        assert (counted["number"], counted["epoch"]) == (changes, 1)
        answer = manager.get("changes", {"since": counted["number"], "epoch": counted["epoch"]})
        assert (answer.status_code, answer.content, answer["Cache-Control"]) == (304, b"", "no-store")
        assert manager.get("changes", {"since": counted["number"]}).status_code == 304
        feed.record(actor=cast.acting("manager"), kind=Kind.JOBS)


def test_a_backup_that_was_put_back_is_told(cast: Cast, manager: CheckedClient) -> None:
    for _ in range(3):
        feed.record(actor=cast.acting("manager"), kind=Kind.JOBS)
    assert manager.get("changes", {"since": 5, "epoch": 1}).json()["number"] == 3
    cast.shop.log_epoch = 2
    cast.shop.save()
    changes = manager.get("changes", {"since": 3, "epoch": 1}).json()  # as many changes as before, but not the same
    assert (changes["number"], changes["epoch"]) == (3, 2)


@pytest.mark.parametrize("query", [{"since": "-1"}, {"since": "x"}, {"since": "1", "epoch": "a"}, {"after": "1"}])
def test_a_question_it_does_not_know_is_refused(manager: CheckedClient, query: dict[str, str]) -> None:
    assert manager.get("changes", query).status_code == 400


# What it costs


def test_a_poll_is_three_reads_and_no_write(cast: Cast, manager: CheckedClient) -> None:
    """The reads are session, user, and the numbers with shop and role, however much has happened."""
    for kind in Kind:
        feed.record(actor=cast.acting("manager"), kind=kind)
    for _ in range(5):
        list_of(cast)
    for query, status in (({}, 200), ({"since": len(Kind)}, 304)):
        with CaptureQueriesContext(connection) as queries:
            assert manager.get("changes", query).status_code == status
        statements = [query["sql"].split()[0] for query in queries]
        assert statements == ["SELECT"] * 3


def test_a_change_is_one_statement_more(cast: Cast) -> None:
    actor = cast.acting("parts")
    feed.record(actor=actor, kind=Kind.COUNTS)
    with transaction.atomic(), CaptureQueriesContext(connection) as queries:
        feed.record(actor=actor, kind=Kind.COUNTS)
    assert [query["sql"].split()[0] for query in queries] == ["UPDATE"]


# Many at once

WRITERS, ROUNDS = 6, 8


@pytest.mark.django_db(transaction=True)
def test_numbers_only_grow_and_none_is_lost_whoever_writes() -> None:
    """Writers of one kind and of several, from the first row on; a reader never sees a sum below the last one."""
    cast = make_cast()
    actor, seen, errors = cast.acting("manager"), [0], list[Exception]()
    working = threading.Event()
    numbers_now = lambda: access.change_numbers(cast.manager.user, cast.shop.slug)[1]  # noqa: E731

    def write(at: int) -> None:
        kinds = [Kind.JOBS, Kind.PULL_LISTS, Kind.QUOTES] if at % 2 else [Kind.COUNTS]
        for _ in range(ROUNDS):
            with transaction.atomic():
                for kind in kinds:
                    feed.record(actor=actor, kind=kind)

    def watch() -> None:
        while not working.is_set():
            seen.append(sum(numbers_now().values()))

    def run(act: Callable[[], None]) -> None:
        try:
            act()
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    reader = threading.Thread(target=run, args=(watch,))
    writers = [threading.Thread(target=run, args=(lambda at=at: write(at),)) for at in range(WRITERS)]
    for thread in (reader, *writers):
        thread.start()
    for thread in writers:
        thread.join(60)
    working.set()
    reader.join(60)
    assert errors == []
    assert seen == sorted(seen)
    half = WRITERS // 2 * ROUNDS
    assert numbers_now() == dict.fromkeys(["counts", "jobs", "pull-lists", "quotes"], half)
