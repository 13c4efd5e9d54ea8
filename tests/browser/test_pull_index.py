"""The way through a long pull list on a phone: from its head to the next line that nobody has counted."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kitting.models import PullLine, PullList
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import advisor_of, sell_all_three
from tests.client import CheckedClient
from tests.kitting.stage import Phone, send

pytestmark = pytest.mark.browser

MOST = 3000  # px at 390: a few strokes of the thumb
TOP = "e => e.getBoundingClientRect().top + scrollY"
IN_SIGHT = """e => {
  const top = e.getBoundingClientRect().top, bar = document.querySelector('.scanbar').getBoundingClientRect()
  return top >= bar.bottom - 1 && top < innerHeight / 2
}"""


@pytest.fixture
def pull_list(transactional_db: None) -> PullList:
    """The pull list of the three demonstration kits."""
    return PullList.objects.get(pk=begin(sell_all_three))


@pytest.fixture
def client(pull_list: PullList) -> CheckedClient:
    return advisor_of("saltmarsh")


def to_count(pull_list: PullList) -> list[PullLine]:
    return list(pull_list.lines.exclude(kind="reused").order_by("position"))


def count(client: CheckedClient, pull_list: PullList, lines: list[PullLine], less: int = 0) -> None:
    """Counts each line in full, less the pieces in `less`."""
    pieces = {line["id"]: line["pieces"] for line in client.get(f"pull-lists/{pull_list.pk}").json()["lines"]}
    phone = Phone(pull_list)
    events = [phone.event(line, total=pieces[str(line.pk)] - less) for line in lines]
    for start in range(0, len(events), 200):
        send(client, pull_list, *events[start : start + 200])


def opened(page: Page, address: str, pull_list: PullList) -> None:
    acts.signed_in(page, address, "ines@saltmarsh.example", f"/saltmarsh/parts/list/{pull_list.pk}")
    expect(page.get_by_role("heading", name="Cartons and bags")).to_be_visible()
    page.wait_for_load_state("networkidle")


def first_not_counted(page: Page) -> Any:
    return page.locator(".pull li").filter(has=page.locator(".stamp.none")).first


@pytest.mark.parametrize(
    "left",
    [
        pytest.param("all", marks=pytest.mark.drill),
        pytest.param("the last six of the kits", marks=pytest.mark.drill),
        "the last six of all",
        "one in each kit",
    ],
)
def test_the_first_line_that_is_not_counted_is_never_far_from_the_top(
    client: CheckedClient, pull_list: PullList, live_server: Any, page: Page, left: str
) -> None:
    lines = to_count(pull_list)
    boxed = [line for line in lines if line.kind != "need"]
    last_of_kits = {line.kit: line for line in boxed}
    waits = {
        "all": lines,
        "the last six of the kits": boxed[-6:],
        "the last six of all": lines[-6:],
        "one in each kit": list(last_of_kits.values()),
    }[left]
    done = [line for line in lines if line not in waits]
    count(client, pull_list, done[::2])
    count(client, pull_list, done[1::2], less=1)  # lines that differ must not cover the way
    opened(page, live_server.url, pull_list)
    counted = page.get_by_text(f"{len(done)} of {len(lines)} lines counted")
    expect(counted.first).to_be_visible(timeout=30_000)
    row = first_not_counted(page)
    expect(row).to_contain_text(waits[0].title)
    assert row.evaluate(TOP) <= MOST


@pytest.mark.drill
def test_next_jumps_to_the_next_bag_with_something_to_count(
    client: CheckedClient, pull_list: PullList, live_server: Any, page: Page
) -> None:
    lines = to_count(pull_list)
    waits = [line for line in lines if line.bag in ("2-08", "5-22")]
    assert {line.bag for line in waits} == {"2-08", "5-22"}
    count(client, pull_list, [line for line in lines if line not in waits])
    opened(page, live_server.url, pull_list)
    for bag in ("2-08", "5-22", "2-08"):
        page.evaluate("scrollTo(0, 0)")
        page.get_by_role("button", name=f"Next: bag {bag}", exact=True).click()
        head = page.get_by_role("heading", name=f"Bag {bag}", exact=True)
        expect(head).to_be_in_viewport()
        page.wait_for_function(IN_SIGHT, arg=head.element_handle())
        here = page.locator("[aria-current]").filter(has_text=bag)
        expect(here).to_have_count(1)


@pytest.mark.drill
def test_a_counted_bag_folds_to_one_line_and_opens_again(
    client: CheckedClient, pull_list: PullList, live_server: Any, page: Page
) -> None:
    lines = to_count(pull_list)
    carton = [line for line in lines if line.kit == "BI-TC35-A" and line.carton == "1"]
    bag = [line for line in carton if line.bag == "1-02"]
    count(client, pull_list, bag[1:])
    count(client, pull_list, bag[:1], less=1)
    opened(page, live_server.url, pull_list)
    head = page.locator(".bag").filter(has=page.get_by_role("button", name="Bag 1-02", exact=True)).last
    expect(head).to_contain_text(f"{len(bag)} counted, 1 short")
    expect(page.get_by_role("button", name=bag[0].title, exact=True)).to_have_count(0)
    head.get_by_role("button").click()
    expect(page.get_by_role("button", name=bag[0].title, exact=True)).to_be_visible()
    head.get_by_role("button").click()
    expect(page.get_by_role("button", name=bag[0].title, exact=True)).to_have_count(0)


@pytest.mark.drill
def test_the_index_names_kits_and_says_what_differs_in_each_carton(
    client: CheckedClient, pull_list: PullList, live_server: Any, page: Page
) -> None:
    lines = to_count(pull_list)
    turbo = [line for line in lines if line.kit == "BI-TC35-A"]
    first = [line for line in turbo if line.carton == "1"]
    second = [line for line in turbo if line.carton == "2"]
    count(client, pull_list, first[2:] + second)
    count(client, pull_list, first[:2], less=1)
    opened(page, live_server.url, pull_list)
    index = page.locator(".index")
    expect(index.get_by_role("heading", name=re.compile(r"[A-C]\. Turbocharger and charge-cooler kit"))).to_be_visible()
    expect(page.get_by_text("BI-TC35-A")).to_have_count(0)
    first_group, two = (
        index.locator("summary").filter(has_text=f"{len(lines)} of {len(lines)}") for lines in (first, second)
    )
    expect(first_group).to_contain_text("2 short")
    expect(first_group).not_to_contain_text("all here")
    expect(two).to_contain_text("all here")


@pytest.mark.drill
def test_on_a_desk_index_and_pad_stay_beside_the_list(pull_list: PullList, live_server: Any, page: Page) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    opened(page, live_server.url, pull_list)
    page.evaluate("scrollTo(0, 6000)")
    index, summary = page.locator(".side"), page.get_by_role("complementary", name="So far")
    expect(index).to_be_in_viewport()
    expect(summary).to_be_in_viewport()
    left, right = index.bounding_box(), summary.bounding_box()
    row = page.locator(".pull li").first.bounding_box()
    assert left and right and row and left["x"] + left["width"] <= row["x"] < row["x"] + row["width"] <= right["x"]
