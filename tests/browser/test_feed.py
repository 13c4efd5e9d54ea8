"""Open screens show changes made by others with the first poll after them, within two seconds."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import BrowserContext, Page, Request, expect

from quotes.models import Quote
from tests.browser import acts
from tests.browser.test_readiness import RING, STOP, count_rings
from tests.browser.test_screens import accept
from tests.cast import make_cast
from tests.kitting.floor import Floor
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.browser

PAUSE = 2_000  # milliseconds from one poll to the next
NOTHING = "h3"  # the heading of an empty list


def opened(page: Page, address: str, sign: str) -> Page:
    """A page at that address with the sign on it."""
    page.goto(address)
    expect(page.locator("main").locator(sign).first).to_be_visible()
    page.wait_for_load_state("networkidle")
    return page


def stop_the_clocks(*pages: Page) -> None:
    """No poll from here on. A context's pages share one clock."""
    for context in {page.context for page in pages}:
        context.clock.pause_at(pages[0].evaluate("Date.now()") / 1000 + 1)  # in seconds, and never backwards
    for page in pages:
        page.wait_for_load_state("networkidle")


@contextmanager
def two_polls(*pages: Page) -> Iterator[None]:
    """Lets two polls pass on each page. What is expected within has come with them, and no reload.

    Two, not one: a poll that was under way as the clocks stopped may still answer with the number of before.
    """
    polls: list[str] = []

    def note(request: Request) -> None:
        if "/changes?since=" in request.url:
            polls.append(request.url)

    for page in pages:
        page.evaluate("window.sameDocument = true")
        page.on("request", note)
    for _ in range(2):
        for context in {page.context for page in pages}:
            context.clock.run_for(PAUSE)
        for page in pages:
            page.wait_for_load_state("networkidle")
    yield
    assert len(polls) <= 2 * len(pages), polls
    assert all(page.evaluate("window.sameDocument") for page in pages)


@pytest.fixture
def stage(transactional_db: None) -> Stage:
    return make_stage(make_cast())


def test_an_acceptance_reaches_the_quote_the_counter_parts_and_the_bay(
    stage: Stage, live_server: Any, page: Page, another: BrowserContext
) -> None:
    link = stage.sent(stage.turbo)["link"]["url"]
    quote, home = Quote.objects.get(), f"{live_server.url}/saltmarsh"
    for context in (page.context, another):
        context.clock.install()  # before the app makes its first timer
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example")
    floor = another.new_page()
    acts.signed_in(floor, live_server.url, "technician@saltmarsh.example")
    open_quote = opened(page, f"{home}/counter/quote/{quote.pk}", "header .stamp")
    counter = opened(page.context.new_page(), f"{home}/counter", NOTHING)
    parts = opened(floor, f"{home}/parts", NOTHING)
    bay = opened(another.new_page(), f"{home}/bay", NOTHING)

    stop_the_clocks(open_quote, counter, parts, bay)
    accept(link)
    with two_polls(open_quote, counter, parts, bay):
        expect(open_quote.locator("header .stamp")).to_contain_text("accepted")
        expect(counter.locator("main").get_by_text("Maren Oldacre")).to_be_visible()
        expect(parts.locator("main").get_by_role("link", name=re.compile("Maren Oldacre"))).to_be_visible()
        expect(bay.locator("main").get_by_text(re.compile("Maren Oldacre"))).to_be_visible()
        expect(bay.locator("main")).to_contain_text("0 of")  # its pull list as well


def test_a_peers_count_reaches_the_list_the_job_and_how_far_it_can_go(
    transactional_db: None, live_server: Any, page: Page, another: BrowserContext
) -> None:
    floor = Floor(make_cast(), opened_at=timezone.now())
    floor.count((floor.duct, 1), (floor.clip, 6), (floor.pack, 2))
    home = f"{live_server.url}/saltmarsh"
    page.context.clock.install()
    acts.signed_in(page, live_server.url, "parts@saltmarsh.example")
    peer = another.new_page()
    acts.signed_in(peer, live_server.url, "technician@saltmarsh.example", f"/saltmarsh/parts/list/{floor.list.pk}")

    pull_list = opened(page, f"{home}/parts/list/{floor.list.pk}", f"text={RING}")
    readiness = opened(page.context.new_page(), f"{home}/parts/job/{floor.job.pk}", f"text={STOP}")
    job = opened(page.context.new_page(), f"{home}/bay/job/{floor.job.pk}", f"text={STOP}")
    stop_the_clocks(pull_list, readiness, job)
    with peer.expect_response(lambda answer: answer.url.endswith("/events") and answer.ok):  # it has reached the server
        count_rings(peer, 2)
    expect(peer.get_by_text("4 of 4 lines counted")).to_be_visible()
    with two_polls(pull_list, readiness, job):
        expect(pull_list.get_by_text("3 counted, 1 short").first).to_be_visible()  # all counted, so it is folded
        expect(readiness.get_by_text("2 of 4").first).to_be_visible()
        expect(job.get_by_text("4 of 4").first).to_be_visible()
