"""The cost of open screens in a shop of 200 jobs and in one of 2,000, at first and after a change."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.db import connection
from django.test import Client

from kitting.models import PullLine, PullList
from shop.models import ChangeNumber
from shop.services import feed
from tests.api.busy import grow, grow_customers
from tests.api.samples import one_of_each
from tests.bench.ratios import ratio
from tests.cast import Cast
from tests.kitting.stage import Phone, send
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.bench

SMALL, LARGE = 200, 2_000  # jobs, and as many of all else that a workshop keeps adding to
MOST_GROWTH = 1.7
"""The longest a read in the larger shop may take, in multiples of the same read in the smaller one."""

FEW_CUSTOMERS, MANY_CUSTOMERS = 10_000, 100_000
BY_INDEX = ("customer", "customer 1", "1 vehicle", "oldacre maren", "tessark t35", "turbo kit")
LOOKED_THROUGH = ("omer", "oldacre nowhere")
MOST_GROWTH_LOOKED_THROUGH = 5.5  # the bound of what is looked through is five times the smaller shop's customers

PHONES = 20
MOST_AFTER_A_COUNT = 50
"""The longest all reads of a screen after a count may take, in multiples of a request that reads who is signed in."""

Ids = dict[str, list[Any]]


@pytest.fixture
def stage(cast: Cast, settings: Any) -> Stage:
    settings.ROOT_URLCONF = "tests.bench.bare_urls"
    for kind in ChangeNumber.Kind:
        feed.record(actor=cast.acting("manager"), kind=kind)
    return make_stage(cast)


def reads(stage: Stage, ids: Ids) -> Iterator[tuple[str, dict[str, Any]]]:
    feed = stage.cast.signed_in("manager").get("changes").json()
    yield "changes", {"since": feed["number"], "epoch": feed["epoch"]}
    yield from (("jobs", {}), ("jobs", {"state": "open"}), ("pull-lists", {"state": "open"}), ("counter", {}))
    yield from (("quotes", {}), ("quotes", {"state": "sent"}), ("customers", {}), ("vehicles", {}), ("kits", {}))
    yield from (("find", {"q": typed}) for typed in ("customer 1", "omer", "nowhere", "Q-7"))
    yield f"jobs/{ids['jobs'][0]}/readiness", {}
    yield from ((f"quotes/{id}", {}) for id in ids["quotes"])


def asking(stage: Stage, path: str, query: dict[str, Any]) -> Callable[[], object]:
    client, address = Client(), stage.client.url(path)
    client.force_login(stage.cast.manager.user)
    assert client.get(address, query).status_code in (200, 304), (path, query)
    return lambda: client.get(address, query)


def measured(stage: Stage, ids: Ids) -> dict[str, tuple[float, float]]:
    """(times of the bare request, milliseconds) of each read."""
    bare = asking(stage, "/bare", {})
    taken = {}
    for path, query in reads(stage, ids):
        times, ms, _ = ratio(asking(stage, path, query), bare)
        taken[f"{path} {query or ''}"] = times, ms
    return taken


def test_ten_times_the_jobs_take_no_read_much_longer(stage: Stage) -> None:
    ids = one_of_each(stage)
    grow(stage, SMALL)
    small = measured(stage, ids)
    grow(stage, LARGE - SMALL)
    large = measured(stage, ids)
    growth = {read: times / small[read][0] for read, (times, _) in large.items()}
    for read, times in growth.items():
        print(f"\n{read}: {small[read][1]:.1f} ms, {large[read][1]:.1f} ms, growth {times:.2f}", end="", flush=True)
    print()
    assert not {read: times for read, times in growth.items() if times > MOST_GROWTH}


def test_ten_times_the_customers_take_find_no_longer(stage: Stage) -> None:
    small, large = (finding(stage, many) for many in (FEW_CUSTOMERS, MANY_CUSTOMERS - FEW_CUSTOMERS))
    growth = {typed: times / small[typed][0] for typed, (times, _) in large.items()}
    for typed, times in growth.items():
        print(f"\nfind {typed!r}: {small[typed][1]:.1f} ms, {large[typed][1]:.1f} ms, growth {times:.2f}", flush=True)
    assert not {typed: growth[typed] for typed in BY_INDEX if growth[typed] > MOST_GROWTH}
    assert not {typed: growth[typed] for typed in LOOKED_THROUGH if growth[typed] > MOST_GROWTH_LOOKED_THROUGH}


def finding(stage: Stage, more: int) -> dict[str, tuple[float, float]]:
    """(times of the bare request, milliseconds) of each search, with so many more customers."""
    grow_customers(stage, more)
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("ANALYZE")
    bare = asking(stage, "/bare", {})
    searches = ((typed, asking(stage, "find", {"q": typed})) for typed in BY_INDEX + LOOKED_THROUGH)
    return {typed: ratio(search, bare)[:2] for typed, search in searches}


def test_what_the_screens_read_again_after_a_count(stage: Stage) -> None:
    ids = one_of_each(stage)
    grow(stage, LARGE)
    pull_list = PullList.objects.get(pk=ids["pull-lists"][0])
    epoch, number = stage.cast.shop.log_epoch, stage.cast.signed_in("parts").get("changes").json()["number"]
    seq = pull_list.last_seq
    send(
        stage.cast.signed_in("parts"),
        pull_list,
        Phone(pull_list).event(PullLine.objects.filter(pull_list=pull_list)[0]),
    )
    again = {
        "the poll": ("changes", {"since": number, "epoch": epoch}),
        "the new counts": (f"pull-lists/{pull_list.pk}/events", {"after": seq}),
        "the report": (f"pull-lists/{pull_list.pk}/report", {}),
        "all lists": ("pull-lists", {"state": "open"}),
        "readiness": (f"jobs/{pull_list.job_id}/readiness", {}),
    }
    bare, taken = asking(stage, "/bare", {}), {}
    for title, (path, query) in again.items():
        taken[title] = ratio(asking(stage, path, query), bare)
    times, ms = sum(figures[0] for figures in taken.values()), sum(figures[1] for figures in taken.values())
    shares = ", ".join(f"{title} {figures[1]:.1f}" for title, figures in taken.items())
    print(
        f"\nread again after a count: {shares} ms, {times:.0f} bare requests (at most {MOST_AFTER_A_COUNT}); "
        f"{PHONES} phones that show all of it: {ms * PHONES / 1000:.2f} s of a core",
        flush=True,
    )
    assert times <= MOST_AFTER_A_COUNT
