"""A bag of small pieces on a scale, weighed on a phone without signal."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from kitting.models import CountEvent
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import axe_finds, expect_step, opened, put_away, sell_the_brakes
from tests.browser.test_screens import ASKED, AXE, COLOURS, SHAPES, SMALL, WIDE

pytestmark = pytest.mark.browser

SCREW, WASHER = "Bobbin screw M6 x 22", "Wave washer M6"


@pytest.fixture
def pull_list(transactional_db: None, page: Page, live_server: Any) -> Iterator[str]:
    """The pull list of an accepted brake kit, open on the phone of who counts."""
    list_id = begin(sell_the_brakes)
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/parts/list/{list_id}")
    expect(row(page, SCREW)).to_be_visible()
    page.wait_for_load_state("networkidle")
    yield list_id


def row(page: Page, title: str) -> Locator:
    return page.locator("li").filter(has=page.get_by_role("button", name=title, exact=True))


def weigh(page: Page, title: str) -> Locator:
    row(page, title).get_by_role("button").click()
    pad = page.locator(".pad")
    expect(pad).to_contain_text(title)
    pad.get_by_role("button", name="Weigh", exact=True).click()
    expect(pad.get_by_role("group", name="What was weighed")).to_be_visible()
    return pad


def press(pad: Locator, keys: str) -> None:
    for key in keys:
        pad.get_by_role("button", name="Point" if key == "." else key, exact=True).click()


def on_the_scale(pad: Locator, count: str, sample: str, everything: str) -> None:
    press(pad, count)
    pad.get_by_role("button", name="Next: its weight").click()
    press(pad, sample)
    pad.get_by_role("button", name="Next: all of them").click()
    press(pad, everything)


def result_of(pad: Locator) -> Locator:
    return pad.get_by_role("status").last  # the first is the figure that is typed


def choose(pad: Locator, step: str, kind: str) -> None:
    pad.locator("summary").click()
    pad.get_by_label("Smallest step on the display").select_option(step)
    pad.get_by_label("Pieces").select_option(kind)


def test_a_bag_weighed_without_signal_is_counted_and_goes_out_as_weighed(page: Page, pull_list: str) -> None:
    page.context.set_offline(True)
    pad = weigh(page, SCREW)
    on_the_scale(pad, "10", "59.3", "121.7")
    pad.get_by_role("button", name="Next: the scale").click()
    pad.get_by_label("Smallest step on the display").select_option("0.1")
    pad.get_by_label("Pieces").select_option("fasteners")
    pad.get_by_role("button", name="Tare", exact=True).click()
    press(pad, "3.1")
    expect(result_of(pad)).to_contain_text("20 pieces: all here.")

    pad.get_by_role("button", name=f"How this was worked out: {SCREW}").click()
    how = opened(page, SCREW)
    expect_step(how, "Pieces: 118.6 g ÷ 5.93 g", "20.00")
    expect_step(how, "Three of them; at most 0.5", "0.235")
    put_away(page)

    pad.get_by_role("button", name="Save 20").click()
    expect(row(page, SCREW)).to_contain_text("all here")
    expect(row(page, SCREW)).to_contain_text("by weight")
    expect(page.locator(".toasts")).to_contain_text("20 by weight, saved on this phone")
    assert not CountEvent.objects.exists()
    page.context.set_offline(False)
    expect(page.locator(".strip")).to_be_hidden()
    event = arrived(page)
    assert (event.kind, event.total, event.damaged, event.extra["how"]) == ("set", 20, 0, "weighed")

    # A second bag of the same part, after the app was opened again: its mass alone.
    page.reload()
    row(page, SCREW).get_by_role("button").click()
    expect(page.locator(".pad")).to_contain_text("You weighed 20")
    page.locator(".pad").get_by_role("button", name="Weigh", exact=True).click()
    pad = page.locator(".pad")
    expect(pad).to_contain_text("the sample is from")
    press(pad, "106.7")
    expect(result_of(pad)).to_contain_text("18 pieces: 2 short.")
    pad.get_by_role("button", name="Save 18").click()
    expect(row(page, SCREW)).to_contain_text("short 2")
    page.get_by_role("status").get_by_role("button", name="Undo").click()
    expect(row(page, SCREW)).to_contain_text("all here")


def arrived(page: Page) -> CountEvent:
    """The one event of the list, once it has gone out."""
    for _ in range(100):
        if CountEvent.objects.exists():
            break
        page.wait_for_timeout(100)
    return CountEvent.objects.get()


@pytest.mark.drill
def test_what_the_scale_cannot_tell_is_counted_by_hand_and_nothing_is_kept(page: Page, pull_list: str) -> None:
    page.context.set_offline(True)
    pad = weigh(page, WASHER)
    press(pad, "9")
    pad.get_by_role("button", name="Next: its weight").click()
    expect(pad.get_by_role("alert")).to_have_text("9 pieces are too small a sample. Count at least 10 into it.")
    pad.get_by_role("button", name=re.compile(r"^Sample [\d–]")).click()
    on_the_scale(pad, "10", "5", "10")
    choose(pad, "1", "pressed")
    expect(result_of(pad)).to_contain_text("The scale is not accurate enough: ± 4 pieces. Count by hand.")
    expect(pad.get_by_role("button", name=re.compile("^Save"))).to_have_count(0)
    pad.locator(".save").click()
    expect(pad.get_by_role("button", name="All here: 20")).to_be_visible()  # the number pad, to count by hand
    expect(row(page, WASHER)).not_to_contain_text("by weight")
    waiting = page.evaluate(WAITING)
    assert waiting == 0
    page.context.set_offline(False)
    press(pad, "20")
    pad.get_by_role("button", name="Save 20").click()
    assert arrived(page).extra["how"] == "counted"


WAITING = """() => new Promise((resolve, reject) => {
  const open = indexedDB.open('kitwright')
  open.onerror = reject
  open.onsuccess = () => {
    const count = open.result.transaction('queue').objectStore('queue').count()
    count.onsuccess = () => resolve(count.result)
  }
})"""


@pytest.mark.drill
def test_the_scale_can_be_used_by_everybody(page: Page, pull_list: str) -> None:
    page.evaluate(AXE.read_text("utf-8"))
    for width, height in ((390, 844), (320, 640), (1280, 800)):
        page.set_viewport_size({"width": width, "height": height})
        pad = weigh(page, SCREW)
        press(pad, "9")
        pad.get_by_role("button", name="Next: its weight").click()
        expect(pad.get_by_role("alert")).to_be_visible()
        assert_usable(page, colours=width == 390)
        pad.get_by_role("button", name=re.compile(r"^Sample [\d–]")).click()
        on_the_scale(pad, "10", "59.3", "118.6")
        choose(pad, "0.1", "fasteners")
        expect(result_of(pad)).to_contain_text("20 pieces: all here.")
        assert_usable(page, colours=width == 390)
        pad.get_by_role("button", name="Close").click()


def assert_usable(page: Page, colours: bool) -> None:
    """Checks the pad for axe's findings; light and dark have the same ones at every width."""
    assert axe_finds(page, ".pad", ASKED if colours else SHAPES) == []
    if colours:
        page.emulate_media(color_scheme="dark")
        assert axe_finds(page, ".pad", COLOURS) == []
        page.emulate_media(color_scheme="light")
    assert page.evaluate(SMALL) == [] and page.evaluate(WIDE) <= 0
