"""A scanner that types like a keyboard, at any pace and wherever the focus is."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kitting.models import CountEvent
from tests.browser.two_phones import Bag, make_bag, open_pad, press, row, wait_until_read

pytestmark = pytest.mark.browser

SCREW, WASHER, NUT, GASKET, SPACER, TIE = (
    "Screw M8 x 25",
    "Washer M8",
    "Nut M10",
    "Gasket, manifold",
    "Spacer 8.4 x 16",
    "Cable tie 3.6 x 200",
)
CODES = {title: f"95200010{at + 1:05}" for at, title in enumerate((SCREW, WASHER, NUT, GASKET, SPACER, TIE))}

# Keys as a scanner sends them, `apart` milliseconds apart by their own time stamps, to whatever has the focus.
SCAN = """([code, apart, end]) => {
  const from = performance.now()
  let at = 0
  for (const key of [...code, end]) {
    const target = document.activeElement ?? document.body
    const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true })
    Object.defineProperty(event, 'timeStamp', { value: from + at })
    at += apart
    const free = target.dispatchEvent(event)
    if (free && key.length === 1 && 'value' in target && target.tagName === 'INPUT') {
      target.value += key
      target.dispatchEvent(new Event('input', { bubbles: true }))
    }
    if (free && key === 'Enter' && target.tagName === 'BUTTON') target.click()
    if (free && key === 'Enter' && target.form) target.form.requestSubmit()
  }
}"""


@pytest.fixture
def bag(transactional_db: None) -> Bag:
    return make_bag()


@pytest.fixture
def linnet(page: Page, live_server: Any, bag: Bag) -> Page:
    return bag.show(page, live_server, "parts@saltmarsh.example")


def scan(page: Page, code: str, apart: int = 20, end: str = "Enter") -> None:
    page.evaluate(SCAN, [code, apart, end])


def expect_found(page: Page, title: str) -> None:
    expect(page.locator(".pad .now b")).to_have_text(title)


def test_a_code_is_read_at_any_pace_and_the_pad_gets_its_value_back(linnet: Page, bag: Bag) -> None:
    for apart, end in zip((5, 20, 40, 60, 100), ("Enter", "Tab") * 3, strict=False):
        pad = open_pad(linnet, SCREW)
        press(pad, "3")
        linnet.evaluate("document.activeElement.blur()")
        scan(linnet, CODES[SCREW], apart, end)
        expect(pad.locator("output")).to_have_text("3")
        expect_found(linnet, SCREW)
        scan(linnet, CODES[WASHER], apart, end)
        expect_found(linnet, WASHER)
        scan(linnet, "BI-0003", apart, end)
        expect_found(linnet, NUT)
    expect(linnet.get_by_text("0 of 6 lines counted").first).to_be_visible()
    assert not CountEvent.objects.exists()


def after_an_unknown_code(page: Page) -> None:
    scan(page, "9520009999999")
    expect(page.locator(".pad")).to_contain_text("“9520009999999” is not on this list")


def after_a_filter(page: Page) -> None:
    page.get_by_role("group", name="Show").get_by_role("button", name="Not counted").click()


def after_a_search(page: Page) -> None:
    scan(page, "gasket")
    expect(page.get_by_text("1 line with “gasket”")).to_be_visible()


def after_closing_the_pad(page: Page) -> None:
    press(open_pad(page, GASKET), "Close")


def after_undo(page: Page) -> None:
    press(open_pad(page, GASKET), "All here: 4")
    page.locator(".toasts").get_by_role("button", name="Undo").click()
    press(page.locator(".pad"), "Close")


def after_a_tap_on_plain_paper(page: Page) -> None:
    page.evaluate("document.activeElement.blur()")


def after_a_key_of_the_pad(page: Page) -> None:
    press(open_pad(page, GASKET), "Erase")


def after_a_bag(page: Page) -> None:
    page.locator(".bag button").first.click()
    expect(page.locator(".pad")).to_contain_text("Accept sealed")


def in_the_question_whether_to_close(page: Page) -> None:
    page.get_by_role("button", name="Close the list").click()
    expect(page.get_by_role("dialog")).to_be_visible()


def on_the_scale(page: Page) -> None:
    press(open_pad(page, TIE), "Weigh")
    press(page.locator(".pad"), "7")
    page.locator(".pad summary").click()
    page.get_by_label("Smallest step on the display").focus()


CONTROLS = (
    after_an_unknown_code,
    after_a_filter,
    after_a_search,
    after_closing_the_pad,
    after_undo,
    after_a_tap_on_plain_paper,
    after_a_key_of_the_pad,
    after_a_bag,
    in_the_question_whether_to_close,
    on_the_scale,
)


def test_no_control_makes_it_deaf(linnet: Page, bag: Bag) -> None:
    """One after the other on the same page, each with the pad closed."""
    for control in CONTROLS:
        control(linnet)
        scan(linnet, CODES[NUT], 20)
        expect_found(linnet, NUT)
        scan(linnet, CODES[WASHER], 60)
        expect_found(linnet, WASHER)
        expect(linnet.get_by_role("dialog")).to_have_count(0)
        expect(linnet.get_by_text("0 of 6 lines counted").first).to_be_visible()
        press(linnet.locator(".pad"), "Close")


def test_an_unknown_code_offers_to_choose_its_line(linnet: Page, bag: Bag) -> None:
    after_an_unknown_code(linnet)
    pad = linnet.locator(".pad")
    pad.get_by_label("Part of its name or number").fill("spacer")
    pad.get_by_role("button", name=SPACER).click()
    expect_found(linnet, SPACER)
    press(linnet.locator(".pad"), "All here: 4")
    expect(row(linnet, SPACER)).to_contain_text("all here")


@pytest.mark.drill
def test_in_a_word_field_only_a_scanners_pace_is_a_code(linnet: Page, bag: Bag) -> None:
    after_an_unknown_code(linnet)
    field = linnet.locator(".pad").get_by_label("Part of its name or number")
    field.focus()
    scan(linnet, CODES[NUT], 100)
    expect(field).to_have_value(CODES[NUT])
    field.fill("was")
    scan(linnet, CODES[NUT], 20)
    expect_found(linnet, NUT)


@pytest.mark.drill
def test_far_too_many_are_asked_about_once_without_a_hint(linnet: Page, bag: Bag) -> None:
    pad = open_pad(linnet, SCREW)
    for digit in "51":
        press(pad, digit)
    press(pad, "Save 51")
    alert = pad.get_by_role("alert")
    expect(alert).to_have_text("51 is a lot for one line. If it is right, save it again.")
    assert not CountEvent.objects.exists()
    wait_until_read(linnet)
    press(pad, "Save 51")
    expect(row(linnet, SCREW)).to_contain_text("over 47")


@pytest.mark.drill
def test_a_refused_digit_says_so(linnet: Page, bag: Bag) -> None:
    pad = open_pad(linnet, SCREW)
    press(pad, "3")
    press(pad, "Damaged")
    press(pad, "9")
    expect(pad.get_by_role("alert")).to_have_text("No more than 3")


@pytest.mark.drill
def test_enter_saves_what_a_keyboard_typed_after_a_key_was_clicked(linnet: Page, bag: Bag) -> None:
    pad = open_pad(linnet, SCREW)
    press(pad, "1")
    linnet.keyboard.press("Enter")
    expect(row(linnet, SCREW)).to_contain_text("short 3")
    pad = open_pad(linnet, SCREW)
    linnet.keyboard.press("4")
    press(pad, "Damaged")
    linnet.keyboard.press("2")
    linnet.keyboard.press("Enter")
    expect(row(linnet, SCREW)).to_contain_text("damaged 2")
