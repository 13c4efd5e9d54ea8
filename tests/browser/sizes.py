"""Looks at a page in dark at desk width and in light at phone width, after one walk to it."""

from collections.abc import Iterator
from typing import Literal

from playwright.sync_api import Page

from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.browser.test_screens import UNSTICK, look

Scheme = Literal["light", "dark"]
SIZES: tuple[tuple[int, Scheme], ...] = (1280, "dark"), (390, "light")


def both_sizes(page: Page) -> Iterator[int]:
    """The widths in turn, each while the page has it. The page is left on the phone."""
    for width, scheme in SIZES:
        page.set_viewport_size({"width": width, "height": 844})
        page.emulate_media(color_scheme=scheme)
        yield width


def look_at_both(page: Page, name: str) -> list[str]:
    """The findings of `look` at both sizes."""
    return [finding for width in both_sizes(page) for finding in look(page, f"{name}, {width} px")]


def nothing_wrong_at_both(page: Page, name: str) -> None:
    for width in both_sizes(page):
        page.evaluate(UNSTICK)  # the bar lies over something else at each size
        nothing_wrong(page)
        picture(page, f"{name}-{width}")
