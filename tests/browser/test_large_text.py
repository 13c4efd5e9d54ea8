"""Letters twice as large on a phone: no figure of a draft or of its customer's page is cut off or covered."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Browser, BrowserType, Page, expect

from quotes.queries.pricing import shop_day
from shop.models import RuleSet
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.conftest import PHONE
from tests.browser.test_how import BRAKES, TURBO, advisor_of, make_saltmarsh
from tests.browser.test_screens import UNSTICK, WIDE

pytestmark = pytest.mark.browser

CALIBRATION = {
    "firm": "Lathe & Lambda",
    "title": "Calibration",
    "cost": "480.00",
    "markup": "0.2",
    "handling": "25.00",
    "tax_class": "labour",
    "days": 3,
    "warranty": "they warrant the file, we warrant loading it",
}
# Of every text with a digit: is it over the side, cut off by a frame around it, or does another text lie on it?
LOST = r"""() => {
  const lost = new Set(), rows = []
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  for (let node; (node = texts.nextNode()); ) {
    const holder = node.parentElement, words = node.data.trim()
    if (!words || holder.closest('.sr, .skip, svg') || !holder.checkVisibility({ visibilityProperty: true })) continue
    const range = document.createRange()
    range.selectNodeContents(node)
    for (const box of range.getClientRects()) {
      if (box.width < 1) continue
      rows.push({ box, words, node, figure: /\d/.test(words) })
      if (!/\d/.test(words)) continue
      if (box.left < -0.5 || box.right > innerWidth + 0.5) lost.add(`over the side: ${words}`)
      for (let frame = holder; frame !== document.body; frame = frame.parentElement) {
        const edge = frame.getBoundingClientRect()
        if (getComputedStyle(frame).overflowX === 'visible') continue
        if (box.right > edge.right + 1 || box.left < edge.left - 1) lost.add(`cut off: ${words}`)
        if (frame.scrollWidth > frame.clientWidth + 1) lost.add(`scrolls sideways: ${words}`)
      }
    }
  }
  for (const one of rows.filter((row) => row.figure))
    for (const other of rows) {
      if (one.node === other.node) continue
      const wide = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left)
      const high = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top)
      if (wide > 2 && high > 0.3 * Math.min(one.box.height, other.box.height))
        lost.add(`covered: ${one.words} by ${other.words}`)
    }
  return [...lost]
}"""


@pytest.fixture(scope="module")
def large(browser_type: BrowserType, browser_type_launch_args: dict[str, Any]) -> Iterator[Browser]:
    """A phone whose owner asked for letters twice as large."""
    larger = [*browser_type_launch_args["args"], "--blink-settings=defaultFontSize=32"]
    browser = browser_type.launch(**{**browser_type_launch_args, "args": larger})
    yield browser
    browser.close()


def make_quote() -> tuple[str, str]:
    """A quote with four prices, a discount and another firm's work: its id, and the customer's address.

    Its draft is offered newer price rules, which compare one range with another.
    """
    make_saltmarsh()
    client = advisor_of("saltmarsh")
    customer = client.get("customers", {"q": "holloway"}).json()["items"][0]["id"]
    car = {"customer": customer, "title": "Tessark T35 estate", "attributes": {"model": "T35"}}
    car["capacities"] = client.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["capacities"]
    vehicle = client.post("vehicles", car).json()["id"]
    kits = [item["id"] for item in client.get("kits").json()["items"] if item["title"] in (TURBO, BRAKES)]
    quote = client.post("quotes", {"kits": kits, "customer": customer, "vehicle": vehicle}).json()
    quote = client.post(f"quotes/{quote['id']}/outside", CALIBRATION).json()
    reason = {"percent": "2.5", "because": "Second job with us this year"}
    quote = client.put(f"quotes/{quote['id']}/discount", reason, seen=f'"{quote["version"]}"').json()
    assert len(quote["undecided"]["prices"]) == 4 and quote["discount"] and quote["outside"] and not quote["stops"], (
        quote["stops"]
    )
    body = {"version": quote["version"], "recipient": "01632 960 417", "below_floor": True}
    link = client.post(f"quotes/{quote['id']}/send", body).json()["link"]["url"]
    client.post(f"quotes/{quote['id']}/revise")
    rules = RuleSet.objects.get()
    rates = {"labour_rates": dict.fromkeys(rules.rules["labour_rates"], "199.00")}
    day = shop_day(rules.shop, timezone.now())
    RuleSet.objects.create(shop=rules.shop, number=2, valid_from=day, rules=rules.rules | rates)
    return quote["id"], link.removeprefix("http://testserver")


def unfolded(page: Page) -> None:
    """Every fold of it open, and what is in them there."""
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true })")
    page.wait_for_load_state("networkidle")
    page.evaluate(UNSTICK)  # what lies under a bar at this moment can be scrolled to


@pytest.mark.parametrize("screen", [pytest.param("draft", marks=pytest.mark.drill), "customer's page"])
def test_no_figure_is_lost(screen: str, large: Browser, live_server: Any, transactional_db: None) -> None:
    quote, link = begin(make_quote)
    page = large.new_page(**PHONE)
    if screen == "draft":
        acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{quote}")
        expect(page.get_by_role("button", name="Use the new rules")).to_be_visible()
        page.wait_for_load_state("networkidle")
    else:
        page.goto(live_server.url + link)
    unfolded(page)
    assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
    assert (page.evaluate(LOST), page.evaluate(WIDE)) == ([], 0)
    page.set_viewport_size({"width": 320, "height": 844})
    assert (page.evaluate(LOST), page.evaluate(WIDE)) == ([], 0)
    page.set_viewport_size({"width": 780, "height": 844})  # as many letters as a phone has of the usual size
    assert (page.evaluate(LOST), page.evaluate(WIDE)) == ([], 0)
    page.context.close()
