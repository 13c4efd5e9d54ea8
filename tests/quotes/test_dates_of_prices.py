"""Each price of a vehicle that is not fully known has a date of its own, on Tue 1 Dec 2026."""

from html import unescape
from typing import Any

import pytest

from kitting.models import Offer
from quotes.models import Decision
from tests.quotes import dated
from tests.quotes.dated import change, send
from tests.quotes.open_gearbox import only, open_gearbox, step
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage
MANUAL = "Expected ready Tue 8 Dec, afternoon. Please bring the vehicle on Tue 8 Dec by 08:00, when we open."
AUTOMATIC = "Expected ready Wed 9 Dec, afternoon. Please bring the vehicle on Tue 8 Dec by 08:00, when we open."


@pytest.fixture
def gearbox(stage: Stage) -> Stage:
    """With an automatic gearbox the work takes a day more."""
    step(stage, "FLUSH", "6.50", only("transmission", "automatic"))
    return open_gearbox(stage)


def sent(stage: Stage) -> dict[str, Any]:
    return send(stage, stage.quote(stage.turbo).json())


def page_of(stage: Stage) -> str:
    return unescape(Phone(sent(stage)["link"]["url"]).html)


def test_beside_the_date_of_the_first_price_stand_those_of_the_others(gearbox: Stage) -> None:
    ready = page_of(gearbox).split('id="s-ready"')[1].split("</section>")[0]
    assert f"<b>automatic:</b> {AUTOMATIC}" in ready


def test_each_price_to_accept_says_its_date_and_the_day_to_bring_the_vehicle(gearbox: Stage) -> None:
    form = page_of(gearbox).split('id="accept"')[1]
    assert form.count(MANUAL) == form.count(AUTOMATIC) == 1


def test_it_counts_the_parts_without_a_delivery_date(gearbox: Stage) -> None:
    Offer.objects.exclude(part=gearbox.turbo.part).update(lead_days=None)
    form = page_of(gearbox).split('id="accept"')[1]
    assert form.count("; 1 part has no delivery date yet. Please bring the vehicle on Tue 8 Dec") == 2


def test_a_date_that_all_prices_share_stands_once(stage: Stage) -> None:
    draft = change(stage, open_gearbox(stage).quote(stage.turbo).json(), here_from="2026-12-07")
    form = unescape(Phone(send(stage, draft)["link"]["url"]).html).split('id="accept"')[1]
    assert form.count("In each case: Expected ready") == form.count("Expected ready") == 1


def test_a_price_without_a_date_says_so(gearbox: Stage) -> None:
    Offer.objects.filter(part=gearbox.turbo.part).update(lead_days=None)
    form = page_of(gearbox).split('id="accept"')[1]
    assert form.count("In each case: We cannot give a date yet. Turbocharger kit has no delivery date.") == 1


def test_without_the_early_start_each_price_has_the_date_that_its_acceptance_gets(gearbox: Stage) -> None:
    gearbox.enact(FAIR)
    phone = Phone(sent(gearbox)["link"]["url"])
    form = unescape(phone.html).split('id="accept"')[1]
    dates = "Tue 22 Dec, afternoon (manual); Wed 23 Dec, afternoon (automatic)"
    assert f"no work before Wed 16 Dec 2026; expected ready then: {dates}." in form
    later = {"ready-1": phone.field("ready-1"), "ready_later-1": phone.field("ready_later-1")}
    assert phone.answer(price="1", consent=("road",), **later).status_code == 303
    promise = Decision.objects.get().record["promise"]["told"]
    assert promise["ready_brief"] == "Wed 23 Dec, afternoon"


def test_read_out_it_names_no_date_of_another_price(gearbox: Stage) -> None:
    gearbox.enact(FAIR)
    form = gearbox.client.get(f"quotes/{sent(gearbox)['quote']['id']}/spoken-answer").json()
    (without,) = [consent["without"] for consent in form["consents"] if "before" in consent["without"]]
    assert without == "Without it we order nothing and start no work before Wed 16 Dec 2026."
    assert [price["dates"][-1].count("Wed 23 Dec") for price in form["prices"]] == [0, 1]
