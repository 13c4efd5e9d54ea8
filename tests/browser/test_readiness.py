"""A job's readiness on a phone, for parts staff, advisor and technician."""

import re
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import BrowserContext, Locator, Page, expect

from shop.presenters.dates import short_day
from tests.browser import acts
from tests.browser.test_screens import look
from tests.cast import make_cast
from tests.kitting.floor import ZONE, Floor

pytestmark = pytest.mark.browser

STOP = "Can start. Stop before step 2: Front off"
COUNT = "1 line loose in carton 1 not counted yet: count it"
RING = "O-ring 14.0 x 2.5"
HOLD = f"Stop before step 2: 1 part missing: {RING}, no delivery date yet."


@pytest.fixture
def floor(transactional_db: None) -> Floor:
    """A floor on which all is counted and here, except the O-rings, which nobody has counted."""
    floor = Floor(make_cast(), opened_at=timezone.now())
    floor.count((floor.duct, 1), (floor.clip, 6), (floor.pack, 2))
    return floor


def verdict(page: Page) -> Locator:
    return page.locator(".stamp.big")


def test_from_one_short_to_all_here(floor: Floor, live_server: Any, page: Page, another: BrowserContext) -> None:
    acts.signed_in(page, live_server.url, "parts@saltmarsh.example")
    count_two_of_four(page)
    it_stops_before_the_front_comes_off(page)
    the_technician_sees_where_to_stop(another.new_page(), live_server.url, floor)
    the_vehicle_comes_in_two_weeks(page)
    the_rest_comes_in_one(page)
    take_it_back_and_say_it_again(page)
    count_the_other_two(page)


def count_two_of_four(page: Page) -> None:
    acts.go_to(page, "Parts")
    page.locator("main").get_by_role("link", name="Maren Oldacre").click()
    count_rings(page, 2)
    expect(page.get_by_role("link", name=STOP)).to_be_visible()  # by itself, once the count has gone out


def count_rings(page: Page, n: int) -> None:
    """The last line that nobody has counted: the pad closes by itself."""
    page.locator("li").get_by_role("button").filter(has_text=RING).first.click()
    pad = page.locator(".pad")
    pad.get_by_role("button", name=str(n), exact=True).click()
    pad.get_by_role("button", name=f"Save {n}", exact=True).click()
    expect(pad).to_be_hidden()
    acts.wait_out_a_double_tap(page)


def it_stops_before_the_front_comes_off(page: Page) -> None:
    page.get_by_role("link", name=STOP).click()
    expect(verdict(page)).to_have_text(STOP)
    expect(page.get_by_text("8 of 18 h in all with the parts here").first).to_be_visible()
    row = page.locator(".lines > li").filter(has_text=RING).filter(has_text="no delivery date yet").first
    expect(row).to_contain_text("2 of 4")
    expect(row).to_contain_text("stops step 3")
    steps = page.locator("section.sheet").filter(has_text="In job sheet order")
    order = steps.locator("ol > li .what, .holdbar").all_inner_texts()
    assert order == [
        "Set-up and protect",
        HOLD,
        "Front off",
        "Turbocharger fitted",
        "Front on",
    ]
    page.get_by_role("button", name="How this was worked out: how far the job can go").click()
    expect(page.get_by_role("dialog")).to_contain_text("Of the lines that this vehicle takes, all here")
    expect(page.get_by_role("dialog")).to_contain_text("3 of 4")
    page.get_by_role("button", name="Close").click()


def the_technician_sees_where_to_stop(page: Page, address: str, floor: Floor) -> None:
    acts.signed_in(page, address, "technician@saltmarsh.example", f"/saltmarsh/bay/job/{floor.job.pk}")
    expect(verdict(page)).to_have_text(STOP)
    expect(page.get_by_text(re.compile(r"^Expected ready .*; 1 part has no delivery date yet$"))).to_be_visible()
    in_hand = page.locator("section.sheet").filter(has=page.locator("#step-in-hand"))
    expect(in_hand.get_by_role("heading", name="1. Set-up and protect")).to_be_visible()
    expect(in_hand).to_contain_text("Parts and fluids")
    acts.unfold(page)
    expect(page.get_by_text(HOLD)).to_be_visible()
    the_bay_works_its_figures(page)
    page.get_by_role("link", name="Step 3 waits: Turbocharger fitted").click()
    expect(page).to_have_url(re.compile("#step-3$"))
    expect(in_hand.get_by_role("heading", name="3. Turbocharger fitted")).to_be_focused()
    expect(in_hand).to_contain_text(f"Missing 2 of 4: {RING}, no delivery date yet")
    expect(in_hand.locator(".stamp")).to_have_text("waits for parts")
    page.get_by_role("link", name="How far the job can go").click()
    expect(verdict(page)).to_have_text(STOP)
    expect(page.get_by_role("button", name=RING)).to_have_count(0)  # others say when things come
    expect(page.get_by_label("The customer brings it on")).to_have_count(0)


def the_bay_works_its_figures(page: Page) -> None:
    page.get_by_role("button", name="How this was worked out: how far the job can go").click()
    sheet = page.get_by_role("dialog")
    expect(sheet.get_by_role("row").filter(has_text="The hours of these steps")).to_contain_text("8.0 of 18.0 h")
    sheet.get_by_role("button", name="Close").click()
    page.get_by_role("button", name="How this was worked out: Hours sold").click()
    expect(sheet.get_by_role("row").filter(has_text="Step 1, Set-up and protect")).to_contain_text("2.0 h")
    expect(sheet.get_by_role("row").last).to_contain_text("18.0 h")
    sheet.get_by_role("button", name="Close").click()


def the_vehicle_comes_in_two_weeks(page: Page) -> None:
    field = page.get_by_label("The customer brings it on")
    field.fill(day_in(14).isoformat())
    field.blur()
    expect(page.get_by_text("work starts when the vehicle arrives").first).to_be_visible()
    expect(verdict(page)).to_have_text(STOP)


def the_rest_comes_in_one(page: Page) -> None:
    say_when(page)
    expect(verdict(page)).to_have_text(f"Can start. {RING} due {short_day(day_in(7))} 10:00")
    expect(page.locator(".holdbar")).to_have_count(0)
    expect(page.get_by_role("heading", name="Comes in time")).to_be_visible()
    expect(page.locator("li").filter(has_text="Turbocharger fitted").locator(".stamp")).to_have_text("comes in time")


def take_it_back_and_say_it_again(page: Page) -> None:
    page.locator(".toast").filter(has_text=f"{RING}: due").get_by_role("button", name="Undo").click()
    expect(verdict(page)).to_have_text(STOP)
    say_when(page)
    expect(verdict(page)).to_contain_text("due")


def say_when(page: Page) -> None:
    page.get_by_role("button", name=RING).click()
    form = page.get_by_role("form", name=f"Say when it comes: {RING}")
    form.get_by_role("button", name="Save the date").click()
    expect(form).to_contain_text("Choose the day.")
    form.get_by_label("It comes on").fill(day_in(7).isoformat())
    form.get_by_label("At").fill("10:00")
    form.get_by_role("button", name="Save the date").click()
    expect(form).to_be_hidden()


def count_the_other_two(page: Page) -> None:
    page.get_by_role("link", name="Pull list").click()
    page.get_by_role("button", name="Differences").click()  # what is counted is folded
    count_rings(page, 4)
    page.get_by_role("link", name="all here").click()
    expect(verdict(page)).to_have_text("All here")
    expect(page.get_by_role("heading", name="What it waits for")).to_have_count(0)


def open_readiness(page: Page, address: str, floor: Floor, actor: str = "parts") -> None:
    acts.signed_in(page, address, f"{actor}@saltmarsh.example", f"/saltmarsh/parts/job/{floor.job.pk}")


@pytest.mark.drill
def test_lines_with_the_same_title_stand_side_by_side(floor: Floor, live_server: Any, page: Page) -> None:
    clamps = [floor.line("Hose clamp", "FIT", carton=carton, quantity=Decimal(2)) for carton in "12"]
    floor.count(*((clamp, 1) for clamp in clamps), (floor.ring, 4))
    floor.due(*clamps, day=day_in(1).isoformat(), time="08:00")
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    open_readiness(page, live_server.url, floor)
    comes = page.locator("ul.lines", has=page.get_by_text("to spare"))
    expect(comes.get_by_text("Hose clamp", exact=True)).to_have_count(2)
    expect(page.get_by_role("button", name="Hose clamp")).to_have_count(2)
    assert (wrong, look(page, "equal titles")) == ([], [])


@pytest.mark.drill
def test_what_only_has_to_be_counted_leads_to_the_list(floor: Floor, live_server: Any, page: Page) -> None:
    open_readiness(page, live_server.url, floor)
    expect(verdict(page)).to_have_text(STOP)
    expect(page.locator(".verdict")).to_contain_text(COUNT)
    expect(page.get_by_role("heading", name="Still to order")).to_have_count(0)
    row = page.get_by_role("listitem").filter(has=page.get_by_role("link", name=RING))
    expect(row).to_contain_text("count it")
    expect(row).not_to_contain_text("expected")
    assert look(page, "not counted yet") == []
    row.get_by_role("link", name=RING).click()
    expect(page).to_have_url(re.compile(f"/list/{floor.list.pk}$"))


@pytest.mark.drill
def test_what_another_phone_counts_comes_by_itself(floor: Floor, live_server: Any, page: Page) -> None:
    page.clock.install()
    open_readiness(page, live_server.url, floor)
    expect(verdict(page)).to_have_text(STOP)
    expect(page.locator(".verdict")).to_contain_text(COUNT)
    floor.count((floor.ring, 4))
    page.clock.run_for(2_000)
    expect(verdict(page)).to_have_text("All here")


@pytest.mark.drill
def test_a_day_typed_without_signal_stays_until_it_is_sent(floor: Floor, live_server: Any, page: Page) -> None:
    floor.count((floor.ring, 2))
    open_readiness(page, live_server.url, floor)
    page.get_by_role("button", name=RING).click()
    form = page.get_by_role("form", name=f"Say when it comes: {RING}")
    page.context.set_offline(True)
    form.get_by_label("It comes on").fill(day_in(7).isoformat())
    form.get_by_role("button", name="Save the date").click()
    expect(form.get_by_role("alert")).to_contain_text("No answer from the server")
    page.context.set_offline(False)
    expect(form.get_by_role("alert")).to_have_count(0)
    expect(form.get_by_text("Typed on this phone, not sent yet.")).to_be_visible()
    page.get_by_role("link", name="Pull list").click()
    page.get_by_role("link", name=STOP).click()
    page.get_by_role("button", name=RING).click()
    expect(form.get_by_label("It comes on")).to_have_value(day_in(7).isoformat())
    form.get_by_role("button", name="Save the date").click()
    expect(form).to_be_hidden()
    expect(page.get_by_role("listitem").filter(has=page.get_by_role("button", name=RING))).to_contain_text("due")


@pytest.mark.drill
def test_a_newer_day_takes_the_word_of_the_older(floor: Floor, live_server: Any, page: Page) -> None:
    floor.count((floor.ring, 2))
    open_readiness(page, live_server.url, floor)
    for _ in range(2):
        say_when(page)
        expect(page.locator(".toast")).to_have_count(1)


@pytest.mark.drill
def test_the_pull_list_says_since_when_it_knows_nothing_new(floor: Floor, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, "parts@saltmarsh.example", f"/saltmarsh/parts/list/{floor.list.pk}")
    standing = page.locator("li").filter(has=page.get_by_role("link", name=STOP))
    expect(standing).to_be_visible()
    expect(standing).not_to_contain_text("As it was at")
    page.context.set_offline(True)
    expect(standing).to_contain_text(re.compile(r"As it was at .*; no signal now"))
    page.context.set_offline(False)
    expect(standing).not_to_contain_text("As it was at")


def day_in(days: int) -> Any:
    return (timezone.now() + timedelta(days=days)).astimezone(ZONE).date()
