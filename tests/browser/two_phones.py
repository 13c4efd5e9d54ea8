"""One list of a few lines, and two people who count it, each on a phone of their own."""

from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Locator, Page, expect

from kitting.models import CountEvent, PullLine, PullList
from shop.models import Member
from tests.browser import acts
from tests.cast import Cast, make_cast, make_member
from tests.factories import CodeFactory, PartFactory, PullLineFactory, PullListFactory

TITLES = ("Screw M8 x 25", "Washer M8", "Nut M10", "Gasket, manifold", "Spacer 8.4 x 16", "Cable tie 3.6 x 200")
A_MOMENT = """() => new Promise((done) => {
  const until = performance.now() + 350
  const look = () => (performance.now() > until ? done() : requestAnimationFrame(look))
  look()
})"""


@dataclass
class Bag:
    """Six lines of four pieces each in bag 2-08 of carton 2; the last is of thirty."""

    cast: Cast
    oda: Member
    list: PullList
    lines: dict[str, PullLine]

    def show(self, page: Page, live_server: Any, email: str) -> Page:
        acts.signed_in(page, live_server.url, email, f"/saltmarsh/parts/list/{self.list.pk}")
        expect(row(page, TITLES[0])).to_be_visible()
        page.wait_for_load_state("networkidle")
        return page

    def totals(self, title: str) -> list[int | None]:
        counts = CountEvent.objects.filter(line=self.lines[title], kind="set").order_by("seq")
        return list(counts.values_list("total", flat=True))


def make_bag() -> Bag:
    cast = make_cast()
    pull_list = PullListFactory(shop=cast.shop)
    lines = {}
    for at, title in enumerate(TITLES):
        part = PartFactory(shop=cast.shop, number=f"BI-{at + 1:04}", title=title)
        CodeFactory(shop=cast.shop, part=part, code=f"095200010{at + 1:05}")
        quantity = 30 if title.startswith("Cable tie") else 4
        lines[title] = PullLineFactory(
            shop=cast.shop,
            pull_list=pull_list,
            position=at + 1,
            part=part,
            title=title,
            quantity=quantity,
            carton="2",
            bag="2-08",
        )
    return Bag(cast, make_member(cast.shop, "parts", "oda"), pull_list, lines)


def row(page: Page, title: str) -> Locator:
    return page.locator("li").filter(has=page.get_by_role("button", name=title, exact=True))


def open_pad(page: Page, title: str) -> Locator:
    row(page, title).get_by_role("button", name=title, exact=True).click()
    pad = page.locator(".pad")
    expect(pad).to_contain_text(title)
    return pad


def press(pad: Locator, name: str) -> None:
    pad.get_by_role("button", name=name, exact=True).click()


def count(page: Page, title: str, pieces: int) -> None:
    pad = open_pad(page, title)
    press(pad, str(pieces))
    press(pad, f"Save {pieces}")
    press(page.locator(".pad"), "Close")


def wait_until_read(page: Page) -> None:
    """A person takes a moment to read what has come."""
    page.evaluate(A_MOMENT)
