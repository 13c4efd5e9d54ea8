"""The technician mixes the coolant with the phone in one gloved hand."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from shop.models import Job, Member
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_screens import accept, look
from tests.cast import PASSWORD
from tests.client import CheckedClient
from tests.demo import KITS, saltmarsh_files, take_in
from tests.factories import JobFactory

pytestmark = pytest.mark.browser

BRAM, INES = "bram@saltmarsh.example", "ines@saltmarsh.example"


def sell_the_turbo() -> Job:
    """The turbocharger kit sold for a vehicle of 9.8 L; it adds 0.4 L to the circuit."""
    shop, _ = open_shop(
        slug="saltmarsh", name="Saltmarsh Lane Motor Works", currency="EUR", exponent=2, zone="Europe/Vienna"
    )
    for email, name, role in ((BRAM, "Bram Tolley", "technician"), (INES, "Ines Corrow", "advisor")):
        set_member(shop=shop, email=email, name=name, role=role, password=PASSWORD)
    take_in("saltmarsh", [*saltmarsh_files(), ("kit", KITS["turbo"])])
    counter = CheckedClient()
    counter.force_login(Member.objects.get(role="advisor").user)
    vehicle = counter.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["id"]
    kits = [item["id"] for item in counter.get("kits").json()["items"]]
    quote = counter.post("quotes", {"kits": kits, "vehicle": vehicle}).json()
    body = {"version": quote["version"], "recipient": "01632 960 417"}
    accept(counter.post(f"quotes/{quote['id']}/send", body).json()["link"]["url"])
    return Job.objects.get()


@pytest.fixture
def job(transactional_db: None) -> Job:
    return begin(sell_the_turbo)


def tap(page: Page, *keys: str) -> None:
    """Presses keys of the pad. On a phone it is opened first: the cautions stand uncovered until then."""
    if not page.locator(".pad").count():
        page.get_by_role("button", name="Litres drained").click()
    for key in keys:
        page.locator(".pad").get_by_role("button", name="Point" if key == "." else key, exact=True).click()


def expect_mix(page: Page, **litres: str) -> None:
    """Expects these litres in big figures, label by label."""
    for label, figure in litres.items():
        pair = page.locator("dl.two > div").filter(has_text=label.replace("_", " "))
        expect(pair.locator("dd")).to_have_text(f"{figure} L")
    expect(page.get_by_text("working it out")).to_have_count(0)


@pytest.mark.drill
def test_two_figures_and_two_taps_give_the_mix(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, BRAM)
    acts.go_to(page, "Bay")
    page.get_by_role("link", name=re.compile("QQ 417 AH")).click()
    page.get_by_role("link", name="Mix the coolant").click()
    expect(page.get_by_role("heading", name="Coolant", exact=True)).to_be_visible()
    expect_mix(page, Concentrate="3.7", Water="3.1")  # what the quote assumed: 6.37 L out, 42 % in
    tap(page, "6", ".", "4")
    tap(page, "Next: reading")
    tap(page, "3", "8")
    expect_mix(page, Concentrate="3.8", Water="3")  # 10.2 x 50 % - 3.4 x 38 %, of a fill of 6.8
    tap(page, "Done")
    expect(page.locator(".pad")).to_be_hidden()
    expect(page.get_by_text("At 50 % it freezes at about \u221237 °C.").first).to_be_visible()
    expect(page.get_by_text("Add 6 L of premix at 50 % and 0.8 L of concentrate.")).to_be_visible()
    for words in ("Never open a hot system", "tastes sweet", "Never mix chemistries", "instructions come first"):
        expect(page.locator(".note").filter(has_text=words)).to_be_visible()
    page.get_by_role("button", name="How this was worked out").click()
    expect(page.get_by_role("row", name="Concentrate: 10.2 × 50 % \u2212 3.4 × 38 %")).to_contain_text("3.808 L")


@pytest.mark.drill
def test_what_was_typed_is_there_when_the_phone_comes_back(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, BRAM, f"/saltmarsh/bay/job/{job.pk}/coolant")
    tap(page, "6", ".", "4", "Next: reading", "Read in °C", "2", "4", ".", "8")
    expect(page.get_by_role("button", name="Reading, °C")).to_contain_text("\u221224.8 °C")
    expect_mix(page, Concentrate="3.7", Water="3.1")  # -24.8 degrees are 40 %
    page.get_by_role("link", name="Back to the job").click()
    page.get_by_role("link", name="Mix the coolant").click()
    expect(page.get_by_role("button", name="Litres drained").first).to_contain_text("6.4 L")
    expect(page.get_by_role("button", name="Reading, °C")).to_contain_text("\u221224.8 °C")
    expect_mix(page, Concentrate="3.7", Water="3.1")


@pytest.mark.drill
def test_a_figure_that_is_chosen_again_is_replaced_by_the_next_key(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, BRAM, f"/saltmarsh/bay/job/{job.pk}/coolant")
    tap(page, "6", ".", "4", "Next: reading", "2", "0")
    reading = page.get_by_role("button", name="Reading, %")
    expect(reading).to_contain_text("20 %")
    reading.click()
    tap(page, "3", "8")
    expect(reading).to_contain_text("38 %")
    expect_mix(page, Concentrate="3.8", Water="3")


@pytest.mark.drill
def test_a_mix_of_supposed_figures_says_so_until_both_are_measured(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, BRAM, f"/saltmarsh/bay/job/{job.pk}/coolant")
    stamp = page.locator(".stamp", has_text="assumed")
    figure = page.locator("dl.two dd").first
    expect(stamp).to_be_visible()
    small = figure.evaluate("each => parseFloat(getComputedStyle(each).fontSize)")
    tap(page, "6", ".", "4", "Next: reading")
    expect(stamp).to_be_visible()
    tap(page, "3", "8")
    expect(stamp).to_have_count(0)
    expect_mix(page, Concentrate="3.8", Water="3")
    assert figure.evaluate("each => parseFloat(getComputedStyle(each).fontSize)") > small
    assert look(page, "measured") == []


@pytest.mark.drill
def test_a_target_out_of_reach_says_what_to_drain_and_what_to_fill_then(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, INES, f"/saltmarsh/bay/job/{job.pk}/coolant")
    tap(page, "1", "Next: reading", "4", "0")
    expect(page.get_by_role("heading", name="Drain more first")).to_be_visible()
    expect_mix(page, Drain_another="0.3", Then_pure_concentrate="1.7")  # 8.5 L may stay: 10.2 x 50 % / 60 %
    tap(page, "Done")
    expect(page.get_by_text("Drain at least 1.3 L in all, 0.3 L more than now")).to_be_visible()
    expect(page.get_by_role("heading", name="Or with premix")).to_have_count(0)
    assert look(page, "out of reach") == []


@pytest.mark.drill
def test_by_keyboard_and_what_cannot_be_is_said_at_once(job: Job, live_server: Any, page: Page) -> None:
    """On a desk the pad is open from the start."""
    page.set_viewport_size({"width": 1280, "height": 900})
    acts.signed_in(page, live_server.url, BRAM, f"/saltmarsh/bay/job/{job.pk}/coolant")
    expect(page.locator(".pad")).to_be_visible()
    page.keyboard.type("20")
    expect(page.get_by_role("alert")).to_have_text("The system holds 9.8 L. Enter 0 to 9.8.")
    expect(page.locator("dl.two")).to_have_count(0)
    page.keyboard.press("Backspace")
    page.keyboard.press("Backspace")
    page.keyboard.type("6,4")
    page.keyboard.press("Enter")
    tap(page, "3", "8")
    page.keyboard.press("Enter")  # goes on, and does not press the 8 again
    expect(page.locator(".pad")).to_be_hidden()
    page.get_by_role("button", name="Litres drained").click()
    page.keyboard.type("6.4")
    page.keyboard.press("Enter")  # goes on from the box that was clicked
    expect(page.locator(".pad")).to_contain_text("38")
    page.keyboard.press("Enter")
    expect(page.locator(".pad")).to_be_hidden()
    expect(page.get_by_role("alert")).to_have_count(0)
    expect_mix(page, Concentrate="3.8", Water="3")


def test_without_signal_the_mix_is_there_at_once(job: Job, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, BRAM, f"/saltmarsh/bay/job/{job.pk}/coolant")
    expect_mix(page, Concentrate="3.7")
    page.wait_for_load_state("networkidle")
    page.context.set_offline(True)
    tap(page, "9")
    expect_mix(page, Concentrate="4.8", Water="4.6")
    tap(page, "Next: reading", "Read in °C", "2", "4", ".", "8")
    expect_mix(page, Concentrate="4.8", Water="4.6")
    expect(page.get_by_text("At 50 % it freezes at about \u221237 °C.").first).to_be_visible()
    tap(page, "9")
    expect(page.get_by_role("alert")).to_have_count(0)  # 24.89: still on the table
    expect(page.get_by_text("No answer from the server")).to_have_count(0)
    tap(page, "Done")
    page.get_by_role("button", name="How this was worked out").click()
    expect(page.get_by_role("row", name="Left in: 9.8 held \u2212 9 drained")).to_contain_text("0.8 L")


@pytest.mark.drill
def test_a_job_without_a_circuit_says_so(job: Job, live_server: Any, page: Page) -> None:
    bare = JobFactory(shop=job.shop, number=99)
    acts.signed_in(page, live_server.url, INES, f"/saltmarsh/bay/job/{bare.pk}")
    expect(page.get_by_role("heading", name=re.compile("J-99"))).to_be_visible()
    expect(page.get_by_role("link", name="Mix the coolant")).to_have_count(0)
    page.goto(f"{live_server.url}/saltmarsh/bay/job/{bare.pk}/coolant")
    expect(page.get_by_role("heading", name="No coolant circuit on this job")).to_be_visible()
    assert look(page, "no circuit") == []
