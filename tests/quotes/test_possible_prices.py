"""An attribute that is not recorded and changes the price is priced for each of its values."""

from decimal import Decimal
from random import Random
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kitting.models import Kit, KitLine, Offer
from quotes import access
from quotes.calc.combinations import applied
from quotes.calc.pricing import savings
from quotes.documents.costs import frozen_costs
from quotes.models import Quote
from quotes.queries.pricing import QuoteFigures, figures
from quotes.services.sending import prepare
from shop.models import Vehicle
from tests.examples import LONG
from tests.quotes.open_gearbox import only, open_gearbox, step
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def priced(quote: dict[str, Any]) -> QuoteFigures:
    return figures(access.current(Quote.objects.get(pk=quote["id"])), timezone.now())


@pytest.fixture
def gearbox(stage: Stage) -> Stage:
    return open_gearbox(stage)


def test_each_value_has_its_hours_and_total(gearbox: Stage) -> None:
    quote_figures = priced(gearbox.quote().json())
    by_gearbox = {dict(price.stated)["transmission"]: price.priced for price in quote_figures.possible}
    assert list(by_gearbox) == ["manual", "automatic"]  # the lower price first
    assert by_gearbox["automatic"].hours - by_gearbox["manual"].hours == Decimal("1.8")
    assert quote_figures.priced is by_gearbox["manual"]
    assert [code for price in by_gearbox.values() for code in work(price) if code in ("COOLER", "CLUTCH")] == [
        "CLUTCH",
        "COOLER",
    ]


def work(price: Any) -> list[str]:
    return [operation.code for operation in price.operations]


def test_the_prices_are_those_of_quoting_with_the_value_recorded(gearbox: Stage) -> None:
    """Over vehicles at random: to the cent, and with every line."""
    step(gearbox, "SENSOR", "0.30", only("wear_sensor", "yes"), kit="QF-T")
    step(gearbox, "LINES", "0.70", only("transmission", "automatic") + only("wear_sensor", "yes"), kit="QF-T")
    quote, random = gearbox.quote().json(), Random(20261126)
    for _ in range(200 if LONG else 30):
        recorded = {"transmission": random.choice(["", "automatic", "manual", "dual clutch"])}
        recorded |= {"wear_sensor": random.choice(["", "yes", "no"]), "body": "estate"}
        vehicle(gearbox, recorded, {"engine oil": f"{random.randint(30, 90) / Decimal(10)}"})
        possible = priced(quote).possible
        assert len(possible) == 2 ** list(recorded.values()).count("")
        for price in possible:
            vehicle(gearbox, applied(price.stated, recorded))
            alone = priced(quote)
            assert not alone.open
            assert (alone.priced.totals, alone.priced.document) == (price.priced.totals, price.priced.document)
            assert (alone.priced.hours, alone.priced.needs) == (price.priced.hours, price.priced.needs)


def test_what_a_kit_saves_is_worked_out_once_a_price(gearbox: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    """The frozen text and the margins that are kept need the same further price."""
    quote, worked_out = Quote.objects.get(pk=gearbox.quote().json()["id"]), []
    monkeypatch.setattr("quotes.queries.pricing.savings", lambda *args: worked_out.append(args) or savings(*args))
    ready = prepare(access.current(quote))
    assert len(frozen_costs(ready.figures, quote.shop)["further"]) == 1
    assert len(worked_out) == len(ready.figures.possible) == 2


def vehicle(stage: Stage, attributes: dict[str, str], capacities: dict[str, str] | None = None) -> None:
    stage.vehicle.attributes = attributes
    stage.vehicle.capacities = capacities or stage.vehicle.capacities
    stage.vehicle.save(update_fields=["attributes", "capacities"])


def test_more_combinations_ask_the_database_no_more(gearbox: Stage) -> None:
    quote = gearbox.quote().json()

    def query_count() -> int:
        with CaptureQueriesContext(connection) as queries:
            priced(quote)
        return len(queries)

    two = query_count()
    vehicle(gearbox, {"transmission": "manual"})
    assert query_count() == two


def test_a_gearbox_that_no_line_names_is_offered_all_the_same(stage: Stage) -> None:
    """The towing kit has work for automatic gearboxes alone: without it, the vehicle has a manual one."""
    KitLine.objects.exclude(conditions=[]).delete()
    step(stage, "COOLER", "8.80", only("transmission", "automatic"), kit="QF-T")
    vehicle(stage, {})
    prices = stage.quote().json()["undecided"]["prices"]
    assert [price["words"] for price in prices] == ["manual", "automatic"] and all(
        price["nameable"] for price in prices
    )


def test_what_only_picks_parts_asks_nothing(stage: Stage) -> None:
    vehicle(stage, {})
    assert not priced(stage.quote().json()).open


def test_a_value_under_which_a_kit_does_not_fit_comes_last(gearbox: Stage) -> None:
    Kit.objects.filter(pk=gearbox.towing.pk).update(fits=only("transmission", "automatic"))
    manual, automatic = sorted(
        priced(gearbox.quote().json()).possible, key=lambda price: len(price.unfit), reverse=True
    )
    assert dict(manual.stated) == {"transmission": "manual"} and len(manual.unfit) == 1
    assert priced(gearbox.quote().json()).possible[0].stated == automatic.stated and not automatic.unfit


def test_above_eight_combinations_nobody_is_asked_to_choose(gearbox: Stage) -> None:
    for name in ("abs", "heated_seats", "wear_sensor"):
        step(gearbox, name.upper(), "0.30", only(name, "yes"))
    quote_figures = priced(gearbox.quote().json())
    assert len(quote_figures.possible) == 16 and not quote_figures.offered


def test_the_draft_shows_a_price_for_each_value(gearbox: Stage) -> None:
    quote = gearbox.quote().json()
    manual, automatic = quote["undecided"]["prices"]
    assert (quote["undecided"]["title"], manual["words"], automatic["words"]) == (
        "Not recorded: gearbox",
        "manual",
        "automatic",
    )
    assert manual["stated"] == [{"attribute": "transmission", "value": "manual"}]
    assert (manual["gross"], manual["hours"]) == (quote["totals"]["gross"], quote["labour"]["hours"])
    assert Decimal(automatic["hours"]) - Decimal(manual["hours"]) == Decimal("1.8")
    assert manual["nameable"] and manual["unfit"] is None
    assert quote["range"] is None and quote["stops"] == []


def test_a_kit_that_a_value_rules_out_is_named_there(gearbox: Stage) -> None:
    Kit.objects.filter(pk=gearbox.towing.pk).update(fits=only("transmission", "automatic"))
    automatic, manual = gearbox.quote().json()["undecided"]["prices"]
    assert (automatic["unfit"], manual["unfit"]) == (None, "Does not fit: Towing kit")


def test_kits_that_fit_no_vehicle_together_cannot_be_sent(gearbox: Stage) -> None:
    Kit.objects.filter(pk=gearbox.towing.pk).update(fits=only("transmission", "automatic"))
    Kit.objects.filter(pk=gearbox.turbo.pk).update(fits=only("transmission", "manual"))
    assert gearbox.quote().json()["stops"] == ["The kits of this quote do not fit one vehicle together."]


def test_too_many_combinations_are_a_range_and_a_list(gearbox: Stage) -> None:
    for name in ("abs", "heated_seats", "wear_sensor"):
        step(gearbox, name.upper(), "0.30", only(name, "yes"))
    quote = gearbox.quote().json()
    assert quote["undecided"]["prices"] == [] and len(quote["undecided"]["attributes"]) == 4
    assert quote["stops"] == [quote["undecided"]["words"]] and "16 prices" in quote["stops"][0]
    assert quote["range"]["words"].endswith("depends on: abs, heated seats, gearbox and wear sensor")


def test_above_sixty_four_combinations_there_is_still_a_range(gearbox: Stage) -> None:
    """Seven more yes or no, 0.3 h each: 2 to the 8th ways. 2.1 h and the 1.8 h of the gearbox, at 165, lie between."""
    names = ("abs", "heated_seats", "wear_sensor", "sunroof", "hitch", "lift", "radar")
    for name in names:
        step(gearbox, name.upper(), "0.30", only(name, "yes"))
    quote = gearbox.quote().json()
    quote_figures = priced(quote)
    assert not quote_figures.offered and len(quote_figures.possible) == 2
    low, high = (price.priced for price in quote_figures.possible)
    assert high.totals.gross - low.totals.gross == Decimal("643.50")
    assert high.hours - low.hours == Decimal("3.9")
    assert Decimal(quote["range"]["low"]) <= low.totals.gross < high.totals.gross <= Decimal(quote["range"]["high"])
    assert len(quote["undecided"]["attributes"]) == 8 and "256 prices" in quote["stops"][0]


def test_lists_have_the_range_until_one_price_is_accepted(gearbox: Stage) -> None:
    quote = gearbox.quote().json()
    low, high = (price["gross"] for price in quote["undecided"]["prices"])
    (row,) = gearbox.client.get("counter").json()["laid_aside"]
    assert (row["gross"], row["gross_high"]) == (low, high)
    (hit,) = gearbox.client.get("find", {"q": quote["number"]}).json()["items"]
    assert (hit["amount"], hit["amount_high"]) == (low, high)
    body = {"version": quote["version"], "recipient": "x"}
    sent = gearbox.client.post(f"quotes/{quote['id']}/send", body).json()
    (row,) = gearbox.client.get("quotes").json()["items"]
    assert (row["state"], row["gross"], row["gross_high"]) == ("sent", low, high)
    assert Phone(sent["link"]["url"]).answer(price="1").status_code == 303
    (row,) = gearbox.client.get("quotes").json()["items"]
    assert (row["state"], row["gross"], row["gross_high"]) == ("accepted", high, None)
    vehicle(gearbox, {"transmission": "manual"})
    assert gearbox.quote().json()["totals"]["gross"] == low
    assert gearbox.client.get("counter").json()["laid_aside"][0]["gross_high"] is None


def test_the_margin_of_each_price_is_told(gearbox: Stage) -> None:
    """Manual: 3,273.38 with 545.56 tax inside leaves 2,727.82; cost 1,868 + 0.4 h at 60 is 1,892: 30.6 %.

    Automatic: 3,570.38 less 595.06 is 2,975.32; cost 1,868 + 2.2 h at 60 is 2,000: 32.8 %.
    """
    quote = gearbox.quote().json()
    margin = gearbox.client.get(f"quotes/{quote['id']}/margin").json()
    assert margin["prices"] == ["manual: 30.6 %", "automatic: 32.8 %"]
    assert (margin["percent"], margin["floor_percent"]) == ("30.6", "24")
    body = {"version": quote["version"], "recipient": "x"}
    gearbox.client.post(f"quotes/{quote['id']}/send", body)
    sent = gearbox.client.get(f"quotes/{quote['id']}/margin").json()
    assert (sent["prices"], sent["percent"]) == (margin["prices"], "30.6")


def test_a_range_has_the_margin_of_both_its_ends(gearbox: Stage) -> None:
    """Lowest: manual, as above. Highest: automatic and 0.9 h at 165: 3,718.88 less 619.81 is 3,099.07, cost 2,054."""
    for name in ("abs", "heated_seats", "wear_sensor"):
        step(gearbox, name.upper(), "0.30", only(name, "yes"))
    margin = gearbox.client.get(f"quotes/{gearbox.quote().json()['id']}/margin").json()
    assert margin["prices"] == ["at the lowest price: 30.6 %", "at the highest price: 33.7 %"]
    assert margin["percent"] == "30.6"


def test_without_a_vehicle_one_says_a_range(gearbox: Stage) -> None:
    Vehicle.objects.update(capacities={})  # so that nobody knows how much oil a vehicle takes
    quote = gearbox.quote(vehicle=None).json()
    low, high = (Decimal(price["gross"]) for price in quote["undecided"]["prices"])
    spoken = quote["range"]
    assert Decimal(spoken["low"]) <= low < high <= Decimal(spoken["high"])
    amounts = f"about {int(spoken['low']):,} to {int(spoken['high']):,}"
    assert spoken["words"] == (
        f"{amounts}, {spoken['hours_low']} to {spoken['hours_high']} hours; depends on: gearbox; "
        "without fluids whose amount depends on the vehicle"
    )


def test_a_range_is_of_the_vehicles_that_all_kits_fit(gearbox: Stage) -> None:
    """A model that only one of two kits fits is neither in the range nor among what it depends on."""
    step(gearbox, "ADAPTER", "90.00", only("model", "Hauler"), kit="QF-T")
    Kit.objects.filter(pk=gearbox.towing.pk).update(fits=only("model", "T35", "Hauler"))
    Kit.objects.filter(pk=gearbox.turbo.pk).update(fits=only("model", "T35"))
    quote = gearbox.quote(vehicle=None).json()
    fitting = [Decimal(price["gross"]) for price in quote["undecided"]["prices"] if not price["unfit"]]
    others = [Decimal(price["gross"]) for price in quote["undecided"]["prices"] if price["unfit"]]
    assert len(fitting) == len(others) == 2
    assert max(fitting) <= Decimal(quote["range"]["high"]) < min(others)
    assert "; depends on: gearbox;" in quote["range"]["words"]
    Kit.objects.filter(pk=gearbox.turbo.pk).update(fits=[*only("model", "T35"), *only("transmission", "manual")])
    manual = gearbox.quote(vehicle=None).json()["range"]
    assert "depends on:" not in manual["words"]
    assert manual["low"] == quote["range"]["low"] and Decimal(manual["high"]) < Decimal(quote["range"]["high"])


def test_a_kit_that_is_looked_up_has_the_range_of_a_quote_of_it_alone(gearbox: Stage) -> None:
    alone = gearbox.quote(gearbox.turbo, vehicle=None, customer=None).json()["range"]
    assert gearbox.client.get(f"kits/{gearbox.turbo.pk}/price-range").json() == {"range": alone}
    assert "depends on: gearbox" in alone["words"]


def test_a_kit_without_a_price_has_no_range(gearbox: Stage) -> None:
    Offer.objects.filter(part=gearbox.towing.part).delete()
    assert gearbox.client.get(f"kits/{gearbox.towing.pk}/price-range").json() == {"range": None}


def test_recording_the_value_leaves_one_price(gearbox: Stage) -> None:
    vehicle(gearbox, {"transmission": "automatic"})
    quote = gearbox.quote().json()
    assert quote["undecided"] is None and quote["range"] is None
