"""Opens the pads of a screen and the explanation of a figure. Finds them without words, so in any language."""

from collections.abc import Callable, Iterator

from playwright.sync_api import Locator, Page, expect

Opened = Iterator[None]


def _pad(page: Page, opener: Locator) -> Locator:
    opener.click()
    pad = page.locator(".pad").first
    expect(pad).to_be_visible()
    return pad


def of_a_pull_list(page: Page) -> Opened:
    """The pad that counts a line, empty and with a number entered; that of a bag or carton; and the scale."""
    lines = page.locator("main li.tap[id] .what")
    pad = _pad(page, lines.first)
    yield
    page.keyboard.press("2")
    yield
    _close(page, pad)
    pad = _pad(page, page.locator("main .bag button, main .carton button").first)
    yield
    _close(page, pad)
    yield from _on_the_scale(page, lines)


def _on_the_scale(page: Page, lines: Locator) -> Opened:
    """A sample of ten, its weight, that of all, the scale and the kind of piece; the result and how it came about."""
    weigh = page.locator(".pad .mine .btn")
    for place in range(lines.count()):
        pad = _pad(page, lines.nth(place))
        if weigh.count():  # there are enough pieces for a scale
            break
        _close(page, pad)
    weigh.last.click()
    expect(pad.locator(".figures")).to_be_visible()
    for keys in ("10", "59.3", "121.7"):
        yield
        for key in keys:
            page.keyboard.press(key)
        yield
        page.keyboard.press("Enter")
    pad.locator("select").nth(0).select_option("0.1")
    yield
    pad.locator("select").nth(1).select_option("fasteners")
    expect(pad.locator(".how")).to_be_visible()
    yield
    pad.locator(".how [aria-haspopup=dialog]").click()
    expect(page.locator("dialog[open]")).to_be_visible()
    yield
    page.keyboard.press("Escape")
    _close(page, pad)


def _close(page: Page, pad: Locator) -> None:
    page.keyboard.press("Escape")
    expect(pad).to_be_hidden()


def of_coolant(page: Page) -> Opened:
    """The pad of the litres drained and that of the reading; a wide screen opens with the first of them."""
    boxes = page.locator("main button[aria-pressed]")
    for place in range(boxes.count()):
        if boxes.nth(place).get_attribute("aria-pressed") == "false":
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
"""Maps the name of a screen to what opens its pads or its explanation."""
