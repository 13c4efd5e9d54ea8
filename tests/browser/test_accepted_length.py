"""An accepted quote with a job under way stays short: settled sections are folded, the others are open."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from kitting.models import PullLine
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.browser.test_how import advisor_of, make_saltmarsh
from tests.browser.test_lengths import TWO_FRAMES, draft_of_two, heights, too_long
from tests.browser.test_screens import accept
from tests.client import CheckedClient
from tests.quotes.contingent import HOSE, STUD
from tests.quotes.test_outside import FILE

pytestmark = pytest.mark.browser

WORK = FILE | {"tax_class": "outside work", "starts_after": "", "needed_by": "TC-23"}
BEARING = {"kind": "text", "title": "Wheel bearing, front left", "unit_price": "189.00", "tax_class": "part"}
TOLD = "A hose comes later, so your vehicle is ready on Friday 18 December instead of Wednesday 9 December."


def send(client: CheckedClient, quote: dict[str, Any]) -> str:
    """The customer's link."""
    body = {"version": quote["version"], "recipient": "01632 960 417", "below_floor": True}
    answer = client.post(f"quotes/{quote['id']}/send", body)
    assert answer.status_code == 201, answer.content
    return str(answer.json()["link"]["url"])


def change_of(client: CheckedClient, job: str) -> dict[str, Any]:
    """A change to the job with one more part, a draft."""
    change = client.post(f"jobs/{job}/changes", {}).json()
    added: dict[str, Any] = client.post(f"quotes/{change['id']}/lines", BEARING).json()
    return added


def under_way(client: CheckedClient) -> dict[str, Any]:
    """An accepted quote of two kits with a paid deposit, changes, outside work, what happened, and a told date."""
    draft = draft_of_two(client)
    path = f"quotes/{draft['id']}"
    assert client.post(f"{path}/outside", WORK).status_code == 201
    skill = draft["rules"]["skills"][0]
    lines = [client.post(f"{path}/contingencies", STUD | {"skill": skill}), client.post(f"{path}/contingencies", HOSE)]
    assert [line.status_code for line in lines] == [201, 201]
    accept(send(client, client.get(path).json()))
    quote: dict[str, Any] = client.get(path).json()
    job = quote["job"]["id"]
    today = date.today().isoformat()
    money = {"received_on": today, "means": "card", "reference": "slip 000417"}
    for amount in ("2500.00", "500.00"):
        assert client.post(f"jobs/{job}/payments", {"amount": amount, **money}).status_code == 201
    work = client.get(f"jobs/{job}/outside").json()["items"][0]["work"]
    for kind in ("sent", "back"):
        event = {"work": work, "kind": kind, "happened_on": today}
        assert client.post(f"jobs/{job}/outside", event).status_code == 201
    agreed = client.get(f"jobs/{job}/occurrences").json()["lines"]
    assert client.post(f"jobs/{job}/occurrences", {"line": agreed[0]["line"], "count": 2}).status_code == 201
    accept(send(client, change_of(client, job)))
    PullLine.objects.filter(kit="QF-T").update(due_at=timezone.now() + timedelta(days=30))
    body = {"ready_on": (date.today() + timedelta(days=21)).isoformat(), "half": "afternoon"}
    answer = client.post(f"jobs/{job}/told-dates", body | {"words": TOLD, "means": "phone"})
    assert answer.status_code == 201, answer.content
    return quote


def test_an_accepted_quote_whose_job_is_under_way_is_short(
    page: Page, live_server: Any, transactional_db: None
) -> None:
    begin(make_saltmarsh)
    quote = under_way(advisor_of("saltmarsh"))
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{quote['id']}")
    expect(page.get_by_text("Margin", exact=True)).to_be_visible()
    page.wait_for_load_state("networkidle")
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 844})
        picture(page, f"accepted-{width}")
    assert too_long(heights(page)) == {}
    page.evaluate(TWO_FRAMES)
    nothing_wrong(page)
