"""What opens over a screen: the pads and the explanation of a figure. Found without words, so in any language."""

from collections.abc import Callable, Iterator

from playwright.sync_api import Locator, Page, expect

Opened = Iterator[None]


def _pad(page: Page, opener: Locator) -> Locator:
    opener.click()
    pad = page.locator(".pad").first
    expect(pad).to_be_visible()
    return pad


def of_a_pull_list(page: Page) -> Opened:
    """The pad that counts a line, empty and with a number entered."""
    lines = page.locator("main li.tap[id] .what")
    pad = _pad(page, lines.first)
    yield
    page.keyboard.press("2")
    yield
    page.keyboard.press("Escape")
    expect(pad).to_be_hidden()


def of_coolant(page: Page) -> Opened:
    """The pad of what was drained, and of the reading."""
    boxes = page.locator("main button[aria-pressed]")
    for place in range(boxes.count()):
        _pad(page, boxes.nth(place))
        yield


def of_an_explanation(page: Page) -> Opened:
    """The dialog on how the readiness was worked out."""
    page.locator("main [aria-haspopup=dialog]").first.click()
    expect(page.locator("dialog[open]")).to_be_visible()
    yield
    page.keyboard.press("Escape")


OVER: dict[str, Callable[[Page], Opened]] = {
    "pull list": of_a_pull_list,
    "readiness": of_an_explanation,
    "coolant": of_coolant,
}
"""What opens on the screens of these names."""
