"""A draft of two kits, its customer's page and its job are short, on a phone and on a desk."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from shop.models import Shop
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import BRAKES, TURBO, advisor_of, make_saltmarsh, quoted
from tests.browser.test_screens import accept
from tests.client import CheckedClient
from tests.quotes.contingent import HOSE, STUD

pytestmark = pytest.mark.browser

HEIGHT = "document.documentElement.scrollHeight"
TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))"
MOST = {390: 3500, 1280: 1800}  # pixels at the width
MOST_WITH_PRICES = {390: 3700, 1280: 1900}  # what is recorded with the answer stays in sight
MOST_WITH_CHOICES = {390: 5000, 1280: 2700}


def heights(page: Page) -> dict[int, int]:
    boxes = {}
    for width in MOST:
        page.set_viewport_size({"width": width, "height": 844})
        boxes[width] = page.evaluate(HEIGHT)
    return boxes


MOST_OF_A_STEP = {390: 3600, 1280: 2300}  # with three kits, the heaviest step in hand and nothing counted


def too_long(boxes: dict[int, int], most: dict[int, int] = MOST) -> dict[int, int]:
    return {width: height for width, height in boxes.items() if height > most[width]}


def draft_of_two(
    client: CheckedClient, attributes: dict[str, str] | None = None, capacities: bool = True
) -> dict[str, Any]:
    """A draft for a customer's vehicle, or for another of hers of which only this is recorded."""
    kits = [item["id"] for item in client.get("kits").json()["items"] if item["title"] in (TURBO, BRAKES)]
    customer = client.get("customers", {"q": "holloway"}).json()["items"][0]
    vehicle = customer["vehicles"][0]["id"]
    if attributes is not None:
        litres = customer["vehicles"][0]["capacities"] if capacities else {}
        car = {"customer": customer["id"], "title": "Tessark T35 estate", "attributes": attributes}
        vehicle = client.post("vehicles", car | {"capacities": litres}).json()["id"]
    draft: dict[str, Any] = client.post("quotes", {"kits": kits, "customer": customer["id"], "vehicle": vehicle}).json()
    return draft


def range_of_two(client: CheckedClient) -> dict[str, Any]:
    """A draft for nobody and no vehicle yet: an answer on the phone."""
    kits = [item["id"] for item in client.get("kits").json()["items"] if item["title"] in (TURBO, BRAKES)]
    draft: dict[str, Any] = client.post("quotes", {"kits": kits}).json()
    return draft


def conditional(client: CheckedClient) -> dict[str, Any]:
    """A draft with two lines that are charged only if they happen."""
    draft = draft_of_two(client)
    for line in (STUD, HOSE):
        draft = client.post(f"quotes/{draft['id']}/contingencies", line).json()
    return draft


def choosing(client: CheckedClient) -> dict[str, Any]:
    """A draft with two choices of two options each."""
    draft = draft_of_two(client)
    path = f"quotes/{draft['id']}"
    for title, options in {"Pads": ("Road", "Track"), "Extras": ("Wax", "Film")}.items():
        for option in options:
            line = {"kind": "text", "title": option, "unit_price": "84.00", "tax_class": "part"}
            draft = client.post(f"{path}/lines", line).json()
        draft = client.post(f"{path}/choices", {"title": title, "take": "one"}).json()
        choice = draft["choices"][-1]["id"]
        for extra in draft["extras"][-2:]:
            option = {"title": extra["title"], "lines": [extra["line"]]}
            draft = client.post(f"{path}/choices/{choice}/options", option).json()
    return draft


@pytest.mark.drill
def test_every_draft_of_two_kits_is_short_with_the_outside_work_offered_with_them(
    page: Page, live_server: Any, transactional_db: None
) -> None:
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    drafts = {
        "two prices": draft_of_two(client, {"model": "T35", "wear sensor": "yes"}),
        "four prices": draft_of_two(client, {"model": "T35"}),
        "range": range_of_two(client),
        "no capacities": draft_of_two(
            client, {"model": "T35", "wear sensor": "yes", "transmission": "manual"}, capacities=False
        ),
        "conditional": conditional(client),
        "choices": choosing(client),
    }
    assert [len(drafts[name]["undecided"]["prices"]) for name in ("two prices", "four prices")] == [2, 4]
    assert drafts["range"]["range"] and drafts["four prices"]["customer"]["phone"]
    assert len(drafts["conditional"]["contingencies"]) == 2
    assert [len(choice["options"]) for choice in drafts["choices"]["choices"]] == [2, 2]
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example")
    tall = {}
    for name, draft in drafts.items():
        page.goto(f"{live_server.url}/saltmarsh/counter/quote/{draft['id']}")
        expect(page.get_by_text("Margin", exact=True)).to_be_visible()
        page.wait_for_load_state("networkidle")
        expect(page.get_by_role("button", name="Add to the quote: Calibration by Lathe & Lambda")).to_be_visible()
        most = MOST_WITH_CHOICES if name == "choices" else MOST
        tall |= {(name, width): height for width, height in too_long(heights(page), most).items()}
        words = page.locator("body").inner_text()
        assert words.count("coolant capacity") == (1 if name == "no capacities" else 0)
    assert tall == {}


def test_a_draft_of_two_kits_its_customers_page_and_its_job_are_short(
    page: Page, live_server: Any, transactional_db: None
) -> None:
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    draft = draft_of_two(client)
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{draft['id']}")
    expect(page.get_by_text("Margin", exact=True)).to_be_visible()
    page.wait_for_load_state("networkidle")
    assert too_long(heights(page)) == {}
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    link = client.post(f"quotes/{draft['id']}/send", body).json()["link"]["url"]
    page.goto(link.replace("http://testserver", live_server.url))
    assert too_long(heights(page)) == {}
    for width in MOST:
        page.set_viewport_size({"width": width, "height": 844})
        assert beyond(page, 844) == []
    accept(link)
    job = client.get(f"quotes/{draft['id']}").json()["job"]["id"]
    page.goto(f"{live_server.url}/saltmarsh/bay/job/{job}")
    expect(page.locator("#step-in-hand")).to_be_visible()
    expect(page.locator(".stamp.big").first).to_be_visible()
    page.wait_for_load_state("networkidle")
    assert too_long(heights(page)) == {}


@pytest.mark.drill
def test_no_step_of_three_kits_is_long_while_nothing_is_counted(
    page: Page, live_server: Any, transactional_db: None
) -> None:
    """Its parts, fluids, cautions and values are open; on a phone the other steps are one row."""
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    draft = quoted(client)
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    accept(client.post(f"quotes/{draft['id']}/send", body).json()["link"]["url"])
    job = client.get(f"quotes/{draft['id']}").json()["job"]["id"]
    steps = len(client.get(f"jobs/{job}").json()["operations"])
    assert steps > 60
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example")
    tall = {}
    for width, most in MOST_OF_A_STEP.items():
        page.set_viewport_size({"width": width, "height": 844})
        page.goto(f"{live_server.url}/saltmarsh/bay/job/{job}")
        expect(page.locator(".stamp.big").first).to_be_visible()
        page.wait_for_load_state("networkidle")
        for step in range(1, steps + 1):
            page.evaluate("step => { location.hash = `#step-${step}` }", step)
            expect(page.locator(f"#step-{step}")).to_be_visible()
            page.evaluate(TWO_FRAMES)  # on a busy machine the step before is still open for one
            height = page.evaluate(HEIGHT)
            if height > most:
                tall[width, step] = height
    assert tall == {}


@pytest.mark.drill
@pytest.mark.parametrize("attributes", [{"wear sensor": "yes"}, {}], ids=["two", "four"])
def test_a_customers_page_with_several_prices_and_a_telephone_is_short(
    page: Page, live_server: Any, transactional_db: None, attributes: dict[str, str]
) -> None:
    """Two attributes are rows and columns, among the totals and to choose by."""
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    Shop.objects.update(phone="01632 960 200")
    draft = draft_of_two(client, {"model": "T35", **attributes})
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    link = client.post(f"quotes/{draft['id']}/send", body).json()["link"]["url"]
    page.goto(link.replace("http://testserver", live_server.url))
    expect(page.get_by_role("link", name="01632 960 200")).to_be_visible()
    assert too_long(heights(page), MOST_WITH_PRICES) == {}


def beyond(page: Page, height: int) -> list[str]:
    """The elements that are missing from the first screenful of the customer's page."""
    selectors = {"total": ".grand", "date": "#s-ready", "day": "#s-ready + div b", "answer": "a[href='#accept']"}
    ends = {name: page.locator(selector).first.bounding_box() for name, selector in selectors.items()}
    return [name for name, box in ends.items() if box is None or box["y"] + box["height"] > height]
