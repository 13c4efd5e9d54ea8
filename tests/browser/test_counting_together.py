"""Two people count one list at the same time: what one of them counts while the other's pad is open."""

from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from kitting.models import CountEvent, PullList
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import ASKED, AXE, COLOURS, SHAPES, SMALL, WIDE
from tests.browser.two_phones import Bag, count, make_bag, open_pad, press, row, wait_until_read

pytestmark = pytest.mark.browser

# Where a tap on a line that is in sight, below the scan bar, reaches a toast.
COVERED = """() => [...document.querySelectorAll('.pull li')].flatMap((line) => {
  const { top, bottom, left, right } = line.getBoundingClientRect()
  if ((top + bottom) / 2 < document.querySelector('.scanbar').getBoundingClientRect().bottom) return []
  return [0.02, 0.25, 0.5, 0.75, 0.98].filter((part) => {
    const at = document.elementFromPoint(left + part * (right - left), (top + bottom) / 2)
    return at?.closest('.toasts') != null
  }).map((part) => `${line.innerText} at ${part}`)
})"""
# Taps a bag's key twice, then "Close the list" as soon as the pad has closed.
TAPS = """async () => {
  const key = document.querySelector('.box-pad .main')
  key.click()
  key.click()
  while (document.querySelector('.pad')) await new Promise(requestAnimationFrame)
  const close = [...document.querySelectorAll('button')].find((each) => each.textContent.trim() === 'Close the list')
  close?.click()
  return close?.textContent.trim()
}"""
SCREW, WASHER, NUT = "Screw M8 x 25", "Washer M8", "Nut M10"


@pytest.fixture
def bag(transactional_db: None) -> Bag:
    return make_bag()


@pytest.fixture
def linnet(page: Page, live_server: Any, bag: Bag) -> Page:
    return bag.show(page, live_server, "parts@saltmarsh.example")


@pytest.fixture
def oda(another: BrowserContext, live_server: Any, bag: Bag) -> Page:
    return bag.show(another.new_page(), live_server, "oda@saltmarsh.example")


def hers_comes(linnet: Page, oda: Page, title: str = SCREW, typed: str = "3") -> Locator:
    """Linnet has opened the pad and typed; then Oda counts two, and it arrives in the pad."""
    pad = open_pad(linnet, title)
    if typed:
        press(pad, typed)
    count(oda, title, 2)
    expect(pad.locator(".others")).to_contain_text("Oda: 2")
    wait_until_read(linnet)
    return pad


def test_save_says_what_it_overrules_and_stands(linnet: Page, oda: Page, bag: Bag) -> None:
    pad = hers_comes(linnet, oda)
    expect(pad.locator(".others.differs")).to_contain_text("You: 3")
    expect(pad.locator(".mine")).to_have_count(0)  # her figure stands in the pad once
    expect(pad.get_by_role("button", name="Found 1 more")).to_have_count(0)
    pad.get_by_role("button", name="Save 3 not 2").click()
    for page in (linnet, oda):
        expect(row(page, SCREW)).to_contain_text("short 1")
        expect(row(page, SCREW)).not_to_contain_text("count again")
    hers, his = CountEvent.objects.order_by("seq")
    assert (hers.total, his.total, his.seen) == (2, 3, hers.seq)
    what_was_counted_is_told_beside_the_lines(linnet)


def what_was_counted_is_told_beside_the_lines(page: Page) -> None:
    """At the foot of the list and at its head, with the pad and without: a tap on a line in sight reaches the line."""
    for title in (WASHER, NUT):
        press(open_pad(page, title), "All here: 4")
        for close in (False, True):
            if close:
                press(page.locator(".pad"), "Close")
            for far in (0, 600, 9999):
                page.evaluate(f"scrollTo(0, {far})")
                expect(page.locator(".toast").last).to_be_in_viewport()
                assert page.evaluate(COVERED) == []


@pytest.mark.drill
def test_both_count_again_keeps_what_the_pad_showed_as_it_opened(linnet: Page, oda: Page, bag: Bag) -> None:
    pad = hers_comes(linnet, oda)
    press(pad, "Both count again")
    for page in (linnet, oda):
        expect(row(page, SCREW)).to_contain_text("neither saw the other")
        expect(row(page, SCREW).locator(".stamp")).to_have_text(["count again"])
    assert CountEvent.objects.get(total=3).seen == 0
    press(linnet.locator(".pad"), "Close")
    pad = open_pad(linnet, SCREW)
    press(pad, "4")
    pad.get_by_role("button", name="Save 4 not 2–3").click()
    for page in (linnet, oda):
        expect(row(page, SCREW).locator(".stamp")).to_have_text(["all here"])


@pytest.mark.drill
def test_hers_is_kept_added_to_and_known(linnet: Page, oda: Page, bag: Bag) -> None:
    closing_the_pad_keeps_hers(linnet, oda, bag)
    one_more_found_builds_on_hers_and_the_pad_shows_the_sum(linnet, oda)
    a_count_that_was_there_before_is_shown_and_known(linnet, oda)


def closing_the_pad_keeps_hers(linnet: Page, oda: Page, bag: Bag) -> None:
    pad = hers_comes(linnet, oda)
    press(pad, "Close")
    expect(row(linnet, SCREW)).to_contain_text("short 2")
    assert bag.totals(SCREW) == [2]


def one_more_found_builds_on_hers_and_the_pad_shows_the_sum(linnet: Page, oda: Page) -> None:
    pad = hers_comes(linnet, oda, WASHER, typed="")
    pad.locator(".others").get_by_role("button", name="Found 1 more").click()
    expect(pad).to_contain_text("2 + 1 = 3 so far")
    for page in (linnet, oda):
        expect(row(page, WASHER).locator(".stamp")).to_have_text(["short 1"])
    expect(row(linnet, WASHER)).to_contain_text("Oda: 2; You: 1 more; 2 + 1 = 3 so far")
    expect(row(linnet, WASHER).locator(".f b")).to_have_text("3")  # the chosen line shows its own figure
    press(linnet.locator(".pad"), "Close")


def a_count_that_was_there_before_is_shown_and_known(linnet: Page, oda: Page) -> None:
    count(oda, NUT, 2)
    expect(row(linnet, NUT)).to_contain_text("short 2")
    pad = open_pad(linnet, NUT)
    expect(pad.locator(".others:not(.differs)")).to_contain_text("Oda: 2 at")
    press(pad, "3")
    expect(pad.locator(".others.differs")).to_contain_text("You: 3")
    pad.get_by_role("button", name="Save 3 not 2").click()
    expect(row(oda, NUT).locator(".stamp")).to_have_text(["short 1"])


def test_all_here_says_what_it_overrules_and_may_ask(linnet: Page, oda: Page, bag: Bag) -> None:
    pad = hers_comes(linnet, oda, typed="")
    pad.get_by_role("button", name="All here: 4 not 2").click()
    expect(row(oda, SCREW).locator(".stamp")).to_have_text(["all here"])
    pad = hers_comes(linnet, oda, WASHER, typed="")
    press(pad, "Both count again")
    expect(row(oda, WASHER).locator(".stamp")).to_have_text(["count again"])
    assert bag.totals(WASHER) == [2, 4]


@pytest.mark.drill
def test_the_pad_with_a_colleagues_count_can_be_used_by_everybody(linnet: Page, oda: Page, bag: Bag) -> None:
    linnet.evaluate(AXE.read_text("utf-8"))
    pad = hers_comes(linnet, oda)
    assert axe_finds(linnet, ".pad", ASKED) == []
    assert linnet.evaluate(SMALL) == [] and linnet.evaluate(WIDE) <= 0
    for width, height in ((320, 640), (1280, 800)):
        linnet.set_viewport_size({"width": width, "height": height})
        assert axe_finds(linnet, ".pad", SHAPES) == []
        assert linnet.evaluate(SMALL) == [] and linnet.evaluate(WIDE) <= 0
    linnet.emulate_media(color_scheme="dark")
    assert axe_finds(linnet, ".pad", COLOURS) == []
    expect(pad).to_be_visible()


def test_two_quick_taps_count_one_line(linnet: Page, bag: Bag) -> None:
    pad = open_pad(linnet, SCREW)
    save = pad.locator(".save")
    box = save.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    linnet.evaluate(
        """async ([x, y]) => {
          const press = () => document.elementFromPoint(x, y).closest('button').click()
          press()
          const moved = () => document.querySelector('.pad').textContent.includes('Washer M8')
          while (!moved()) await new Promise(requestAnimationFrame)
          press()
        }""",
        [x, y],
    )
    expect(row(linnet, SCREW)).to_contain_text("all here")
    expect(pad).to_contain_text(WASHER)
    expect(linnet.get_by_text("1 of 6 lines counted").first).to_be_visible()
    expect(pad).not_to_have_attribute("aria-busy", "true")
    press(pad, "All here: 4")
    expect(linnet.get_by_text("2 of 6 lines counted").first).to_be_visible()


def test_two_quick_taps_count_a_whole_bag_once(linnet: Page, bag: Bag) -> None:
    """The second tap comes while the counts are stored, the third where the pad has just gone: on "Close the list"."""
    linnet.locator(".bag button").first.click()
    pad = linnet.locator(".box-pad")
    expect(pad).to_be_visible()
    with linnet.expect_response(lambda answer: answer.url.endswith("/events") and answer.ok):
        under = linnet.evaluate(TAPS)
    assert under == "Close the list"
    expect(linnet.get_by_text("6 of 6 lines counted").first).to_be_visible()
    assert CountEvent.objects.count() == 6
    linnet.locator(".toasts").get_by_role("button", name="Undo").click()
    expect(linnet.get_by_text("0 of 6 lines counted").first).to_be_visible()
    linnet.wait_for_load_state("networkidle")
    assert PullList.objects.get().state == "open"


def test_two_quick_taps_note_one_wrong_part(linnet: Page, bag: Bag) -> None:
    pad = open_pad(linnet, SCREW)
    pad.get_by_role("button", name="Wrong part", exact=True).evaluate(
        """async (key) => {
          key.click()
          while (!document.querySelector('.pad').textContent.includes('You noted a wrong part'))
            await new Promise(requestAnimationFrame)
          key.click()
        }"""
    )
    wait_until_read(linnet)
    expect(row(linnet, SCREW).locator(".stamp")).to_have_text(["wrong part"])
    press(pad, "Wrong part")  # a second wrong piece, noted on purpose
    expect(row(linnet, SCREW).locator(".stamp")).to_have_text(["wrong part 2"])
    expect(linnet.locator(".toast")).to_contain_text("Wrong part noted")
    press(pad, "Undo")
    expect(row(linnet, SCREW).locator(".stamp")).to_have_text(["wrong part"])
    expect(linnet.locator(".toast")).to_have_count(0, timeout=2_000)  # sooner than it goes by itself
