"""The job as the technician reads it on a phone: how the hours of each step came about, and no price anywhere."""

import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from kitting.models import PullList
from shop.constraints import refusals_suspended
from shop.models import JobOperation, Member, Shop
from shop.services.people import set_member
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import (
    BRAKES,
    TOWING,
    TURBO,
    advisor_of,
    axe_finds,
    expect_step,
    make_saltmarsh,
    opened,
    put_away,
    quoted,
)
from tests.browser.test_screens import AXE, SMALL, WIDE, accept
from tests.cast import PASSWORD
from tests.client import CheckedClient

pytestmark = pytest.mark.browser

WHEELS = "Front wheels and arch liners off"


def sell_to_a_rusty_vehicle() -> dict[str, Any]:
    """Three kits on one vehicle with light corrosion, accepted; and the technician who does the work."""
    begin(make_saltmarsh)
    advisor = advisor_of("saltmarsh")
    draft = quoted(advisor, "light")
    body = {"version": draft["version"], "recipient": "01632 960 417"}
    accept(advisor.post(f"quotes/{draft['id']}/send", body).json()["link"]["url"])
    id = advisor.get(f"quotes/{draft['id']}").json()["job"]["id"]
    shop = Shop.objects.get(slug="saltmarsh")
    set_member(shop=shop, email="tam@saltmarsh.example", name="Tam Ekwall", role="technician", password=PASSWORD)
    technician = CheckedClient(shop="saltmarsh")
    technician.force_login(Member.objects.get(shop=shop, role="technician").user)
    job: dict[str, Any] = technician.get(f"jobs/{id}").json()
    return job


@pytest.fixture
def job(transactional_db: None) -> dict[str, Any]:
    return begin(sell_to_a_rusty_vehicle)


def show(page: Page, live_server: Any, job: dict[str, Any]) -> None:
    acts.signed_in(page, live_server.url, "tam@saltmarsh.example", f"/saltmarsh/bay/job/{job['id']}")
    expect(page.get_by_role("heading", name=job["number"])).to_be_visible()


def take(page: Page, step: dict[str, Any]) -> Locator:
    """Takes a step in hand from the list of all work; its sheet."""
    acts.unfold(page)
    page.locator(".folds").get_by_role("button", name=step["title"], exact=True).click()
    sheet = in_hand(page)
    expect(sheet.get_by_role("heading", name=f"{step['position']}. {step['title']}", exact=True)).to_be_focused()
    return sheet


def in_hand(page: Page) -> Locator:
    return page.locator("section.sheet").filter(has=page.locator("#step-in-hand"))


def titled(job: dict[str, Any], title: str) -> dict[str, Any]:
    step: dict[str, Any] = next(operation for operation in job["operations"] if operation["title"] == title)
    return step


def how(page: Page, title: str) -> Locator:
    page.get_by_role("button", name=f"How this was worked out: {title}", exact=True).click()
    return opened(page, title)


@pytest.mark.drill
def test_a_step_opens_its_worked_numbers(page: Page, live_server: Any, job: dict[str, Any]) -> None:
    show(page, live_server, job)
    take(page, titled(job, WHEELS))
    sheet = how(page, WHEELS)
    expect_step(sheet, f"B, {BRAKES}, needs", "0.3 h")
    expect_step(sheet, "Shared with Front calipers and discs off", "− 0.2 h")
    expect_step(sheet, "+8 % for corroded fasteners", "0.108 h")
    expect_step(sheet, "Rounded to 0.1 h", "0.1 h")
    expect(sheet.get_by_role("row").last).to_contain_text("0.1 h")
    assert not re.search(r"EUR|€|(?<!× )\b\d+\.\d\d\b(?! h)|price", sheet.inner_text())
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page) == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
    put_away(page)

    shared = next(
        operation
        for operation in job["operations"]
        if operation["why"] and "once for three kits" in operation["why"][0]
    )
    take(page, shared)
    sheet = how(page, shared["title"])
    for letter, title in (("A", TOWING), ("B", BRAKES), ("C", TURBO)):
        expect(sheet.get_by_role("cell", name=f"{letter}, {title}, needs")).to_be_visible()
    expect_step(sheet, "Done once: the longest of 3", f"{shared['hours']} h")


@pytest.mark.drill
def test_every_step_can_be_taken_in_hand_and_the_whole_opened(
    page: Page, live_server: Any, job: dict[str, Any]
) -> None:
    show(page, live_server, job)
    expect(page.get_by_text("instructions come first")).to_have_count(1)  # at the head, not after each caution
    acts.unfold(page)
    expect(page.locator(".folds ol.lines > li")).to_have_count(len(job["operations"]))
    sheet = how(page, "Hours sold")
    first = job["operations"][0]
    expect_step(sheet, f"Step 1, {first['title']}", f"{first['hours']} h")
    expect(sheet.get_by_role("row").last).to_contain_text(f"{job['hours']} h")


@pytest.mark.drill
def test_a_job_from_before_they_were_kept_has_its_reasons(page: Page, live_server: Any, job: dict[str, Any]) -> None:
    row = JobOperation.objects.get(title=WHEELS)
    row.sheet.pop("how")
    with refusals_suspended():
        JobOperation.objects.filter(pk=row.pk).update(sheet=row.sheet)
    show(page, live_server, job)
    take(page, titled(job, WHEELS))
    sheet = how(page, WHEELS)
    expect(sheet).to_contain_text("+8 % for corroded fasteners")
    expect(sheet.get_by_role("cell", name=f"B, {BRAKES}, needs")).to_have_count(0)


def test_one_step_is_in_hand_and_the_others_are_folded_by_stage(
    page: Page, live_server: Any, job: dict[str, Any]
) -> None:
    """The step in hand is kept on this phone, also without signal; each kit's template numbers its stages from one."""
    show(page, live_server, job)
    first, second, third = job["operations"][:3]
    expect(in_hand(page).get_by_role("heading", name=f"1. {first['title']}")).to_be_visible()
    assert not page.get_by_text(third["title"], exact=True).count()  # folded
    page.get_by_role("button", name=f"Next: {second['title']}").press("Enter")
    expect(page.locator("#step-in-hand")).to_be_focused()
    expect(page.locator("#step-in-hand")).to_have_text(f"2. {second['title']}")
    page.get_by_role("button", name=f"Next: {third['title']}").click()
    expect(page.locator("#step-in-hand")).to_be_in_viewport()
    page.get_by_text(f"All {len(job['operations'])} steps").click()
    strip = page.locator("details.fold details.fold").filter(has_text="step in hand")
    expect(strip.get_by_role("button", name=third["title"], exact=True)).to_have_attribute("aria-current", "true")
    expect(strip).to_contain_text("11 steps: 3 to 5, 14 to 1")
    expect(strip.locator(".holdbar")).to_contain_text(["cannot move"])
    page.evaluate("location.hash = '#step-34'")
    step = in_hand(page)
    expect(step.locator("#step-34")).to_be_in_viewport()
    expect(step.get_by_role("heading", name="Parts and fluids")).to_be_visible()
    assert page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
    acts.go_to(page, "Bay")
    link = page.locator(f"main a[href$='/bay/job/{job['id']}']")
    expect(link).to_be_visible()
    page.context.set_offline(True)
    link.click()
    expect(page.locator("#step-34")).to_be_visible()
    expect(in_hand(page).get_by_role("heading", name="Parts and fluids")).to_be_visible()
    page.context.set_offline(False)


@pytest.mark.drill
def test_a_technician_is_offered_no_quote_at_the_counter(page: Page, live_server: Any, job: dict[str, Any]) -> None:
    acts.signed_in(page, live_server.url, "tam@saltmarsh.example")
    acts.go_to(page, "Counter")
    expect(page.get_by_text("Only advisors and managers see quotes.")).to_be_visible()
    box = page.get_by_role("searchbox")
    for sought, title in (("big-brake", BRAKES), ("oskerry", "Oskerry Hauler pickup")):
        box.fill(sought)
        expect(page.get_by_text(title).first).to_be_visible()
        expect(page.get_by_role("button", name=re.compile("quote", re.IGNORECASE))).to_have_count(0)
    box.fill("nothing like it")
    expect(page.get_by_text("Nothing found for")).to_be_visible()
    expect(page.get_by_text(re.compile("new quote|all quotes|not for your role", re.IGNORECASE))).to_have_count(0)
    pull_list = PullList.objects.get()
    page.goto(f"{live_server.url}/saltmarsh/parts/list/{pull_list.pk}")
    expect(page.get_by_role("link", name="Pull list (PDF)")).to_be_visible()
    expect(page.get_by_role("button", name="Close the list")).to_have_count(0)
