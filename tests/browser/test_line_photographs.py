"""An advisor photographs what a line is about; the customer's page shows it without growing beyond its limits."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import advisor_of, make_saltmarsh
from tests.browser.test_lengths import draft_of_two, heights, too_long
from tests.calc.test_pictures import jpeg

pytestmark = pytest.mark.browser


def test_the_advisor_adds_it_and_the_customer_opens_it(
    page: Page, live_server: Any, transactional_db: None, tmp_path: Path
) -> None:
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    draft = draft_of_two(client)
    photograph = tmp_path / "bracket.jpg"
    photograph.write_bytes(jpeg(1200, 900))
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{draft['id']}")
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="A photograph").click()
    page.get_by_label("Caption").fill("Your rusted bracket")
    page.get_by_role("button", name="Add the photograph").click()
    expect(page.get_by_text("Take or choose a photograph first.")).to_be_visible()
    page.locator("input[type=file]").set_input_files(str(photograph))
    expect(page.get_by_alt_text("The photograph that was chosen")).to_be_visible()
    page.get_by_role("button", name="Add the photograph").click()
    expect(page.get_by_text("The customer sees 1 of 1.")).to_be_visible()
    version = client.get(f"quotes/{draft['id']}").json()["version"]
    sent = client.post(f"quotes/{draft['id']}/send", {"version": version, "recipient": "01632 960 417"})
    page.goto(sent.json()["link"]["url"].replace("http://testserver", live_server.url))
    assert too_long(heights(page)) == {}
    picture = page.get_by_alt_text("Photograph 1: Your rusted bracket")
    expect(picture).to_be_hidden()
    page.get_by_text("Photograph: Your rusted bracket").click()
    expect(picture).to_be_visible()
    assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") == 800
