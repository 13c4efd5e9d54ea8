"""The technician types what ran out and what the refractometer reads, and has the mix."""

import re
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.calc.circuits import Scale
from kitting.models import KitRevision, Need, PullList
from kitting.queries.circuits import job_circuits
from quotes.models import Revision
from quotes.presenters.customer import for_customer
from quotes.queries import frozen
from quotes.services import acceptance
from shop.models import Job, RuleSet, Vehicle
from tests.cast import Cast
from tests.client import CheckedClient
from tests.costs import keys_of
from tests.factories import ConsumableFactory, JobFactory, OfferFactory, PackFactory, PullListFactory
from tests.kitting.mix_oracle import CircuitMeasurement, mixed
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.once

SOLD = {
    "of": "coolant",
    "title": "Coolant concentrate, organic acid, ethylene glycol",
    "glycol": "ethylene",
    "capacity": "14.2",
    "added": "0.4",
    "target": "0.5",
    "residual": "0.42",
    "drained": "9.23",
    "drained_share": "0.65",
    "premix": "0.5",
    "order_allowance": "0.05",
    "top_up": "0.5",
}


def job_with(cast: Cast, *circuits: dict[str, Any], **capacities: str) -> Job:
    job = JobFactory(shop=cast.shop)
    Vehicle.objects.filter(pk=job.vehicle_id).update(capacities=capacities)
    PullListFactory(shop=cast.shop, job=job, facts={"circuits": [SOLD | circuit for circuit in circuits]})
    return job


@pytest.fixture
def bay(cast: Cast) -> CheckedClient:
    return cast.signed_in("technician")


def ask(job: Job, drained: str, reading: str, scale: Scale = "percent", name: str = "coolant") -> dict[str, Any]:
    job = Job.objects.select_related("vehicle").get(pk=job.pk)
    circuit = next(circuit for circuit in job_circuits(job) if circuit.of == name)
    return mixed(circuit, CircuitMeasurement(Decimal(drained), Decimal(reading), scale))


def mix(job: Job, drained: str, reading: str, scale: Scale = "percent", name: str = "coolant") -> dict[str, Any]:
    mixture: dict[str, Any] = ask(job, drained, reading, scale, name)["mix"]
    return mixture


def test_the_bay_knows_the_circuit_as_it_was_sold(cast: Cast, bay: CheckedClient) -> None:
    (circuit,) = bay.get(f"jobs/{job_with(cast, {}).pk}/circuits").json()["items"]
    words = circuit.pop("mix_words")
    assert words["fill"] == "Add {concentrate} L of concentrate and {water} L of water."
    assert circuit == {
        "name": "coolant",
        "title": "Coolant",
        "concentrate": "Coolant concentrate, organic acid, ethylene glycol",
        "chemistry": "ethylene glycol",
        "capacity": "14.2",
        "capacity_words": "from the quote",
        "added": "0.4",
        "after": "14.6",
        "target": "50",
        "protects": "-37.1",
        "protection_words": "At 50 % it freezes at about \u221237 °C.",
        "drained": "9.23",
        "residual": "42",
        "scales": ["percent", "celsius"],
        "glycol": "ethylene",
        "premix": "50",
    }


def test_litres_and_a_reading_give_the_mix_and_how_far_it_protects(cast: Cast) -> None:
    mixture = mix(job_with(cast, {}), "9.6", "42")
    assert (mixture["status"], mixture["concentrate"], mixture["water"], mixture["fill"]) == ("ok", "5.4", "4.6", "10")
    assert mixture["words"] == "Add 5.4 L of concentrate and 4.6 L of water."
    assert (mixture["after"], mixture["target"], mixture["protects"]) == ("14.6", "50", "-37.1")
    assert mixture["premix"]["words"] == "Add 9.3 L of premix at 50 % and 0.7 L of concentrate."
    assert mixture["premix_only"]["words"] == "Premix alone brings it to 47 %, which freezes at about \u221233 °C."
    assert mixture["remedy"] is None


def test_the_worked_numbers_are_the_ones_of_this_mix(cast: Cast) -> None:
    how = mix(job_with(cast, {}), "9.6", "42")["how"]
    assert how["result"] == "5.368 L + 4.632 L"
    assert [(step["words"], step["figure"]) for step in how["steps"]] == [
        ("The circuit holds, from the quote", "14.2 L"),
        ("With what the kits add: 14.2 + 0.4", "14.6 L"),
        ("Left in: 14.2 held \u2212 9.6 drained", "4.6 L"),
        ("To add: 14.6 \u2212 4.6", "10 L"),
        ("Concentrate: 14.6 × 50 % \u2212 4.6 × 42 %", "5.368 L"),
        ("Water: 10 \u2212 5.368", "4.632 L"),
        ("Begins to freeze at 50 %, from the table", "\u221237.1 °C"),
    ]


def test_a_freeze_point_read_gives_the_mix_of_the_concentration_that_freezes_there(
    cast: Cast,
) -> None:
    job = job_with(cast, {})
    by_degrees, by_percent = mix(job, "9.6", "-24.8", scale="celsius"), mix(job, "9.6", "40")
    assert by_degrees["residual"] == "40"
    assert (
        by_degrees["how"]["steps"][3]["words"]
        == "\u221224.8 °C was read: the concentration that begins to freeze there"
    )
    for mixture in (by_degrees, by_percent):
        mixture.pop("how")
    assert by_degrees == by_percent


def test_too_weak_a_rest_says_how_much_to_drain_and_that_concentrate_goes_in(cast: Cast) -> None:
    """At 30 %, 10.428 L may stay of 14.6 L at 50 %: 14.6 x 0.5 / 0.7."""
    mixture = mix(job_with(cast, {}), "2", "30")
    assert (mixture["status"], mixture["concentrate"], mixture["water"], mixture["premix"]) == (
        "drain_more",
        None,
        None,
        None,
    )
    assert mixture["words"] == "50 % cannot be reached yet."
    remedy = mixture["remedy"]
    assert (remedy["drain_at_least"], remedy["drain_more"], remedy["then_fill"]) == ("3.8", "1.8", "4.2")
    assert remedy["words"] == (
        "Drain at least 3.8 L in all, 1.8 L more than now, then fill with 4.2 L of pure concentrate."
    )
    assert [step["figure"] for step in mixture["how"]["steps"][-2:]] == ["10.428 L", "3.772 L"]
    assert mixture["how"]["result"] == "3.772 L"
    assert mixture["premix_only"]["percent"] == "33.29"  # what premix alone would come to


def test_too_strong_a_rest_says_how_much_to_drain_and_that_water_goes_in(cast: Cast) -> None:
    mixture = mix(job_with(cast, {}), "2", "65")
    assert (mixture["status"], mixture["remedy"]["fluid"]) == ("too_strong", "water")
    assert "of pure water" in mixture["remedy"]["words"] and "strong coolant" in mixture["remedy"]["why"]
    at_least = mixture["remedy"]["drain_at_least"]
    then = mix(job_with(cast, {}), at_least, "65")
    assert (then["status"], then["fill"]) == ("ok", mixture["remedy"]["then_fill"])
    assert Decimal(then["concentrate"]) <= Decimal("0.1")


@pytest.mark.parametrize(
    ("drained", "reading", "scale", "pointer", "remedy"),
    [
        ("14.3", "42", "percent", "/drained", "The system holds 14.2 L. Enter 0 to 14.2."),
        ("-1", "42", "percent", "/drained", "Enter 0 to 14.2."),
        ("9.6", "101", "percent", "/reading", "0 to 100 %"),
        ("9.6", "-2", "celsius", "/reading", "from \u22123.6 to \u221252 °C"),
        ("9.6", "24", "celsius", "/reading", "from \u22123.6 to \u221252 °C"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    cast: Cast, drained: str, reading: str, scale: Scale, pointer: str, remedy: str
) -> None:
    refused = ask(job_with(cast, {}), drained, reading, scale)["no"]
    assert refused["pointer"] == pointer
    assert remedy in refused["words"]


def test_without_a_glycol_there_is_a_mix_but_no_freeze_point(cast: Cast, bay: CheckedClient) -> None:
    job = job_with(cast, {"glycol": None})
    assert bay.get(f"jobs/{job.pk}/circuits").json()["items"][0]["scales"] == ["percent"]
    mixture = mix(job, "9.6", "42")
    assert (mixture["concentrate"], mixture["protects"]) == ("5.4", None)
    assert "names no glycol" in mixture["protection_words"]
    assert ask(job, "9.6", "-20", "celsius")["no"]["pointer"] == "/scale"


def test_a_capacity_corrected_on_the_vehicle_since_then_counts(cast: Cast, bay: CheckedClient) -> None:
    job = job_with(cast, {}, coolant="12")
    (circuit,) = bay.get(f"jobs/{job.pk}/circuits").json()["items"]
    assert (circuit["capacity"], circuit["after"], circuit["drained"]) == ("12", "12.4", "7.8")
    assert circuit["capacity_words"] == "from the vehicle's page now; the quote had 14.2 L"
    assert mix(job, "9.6", "42")["stays"] == "2.4"


def test_a_capacity_that_nobody_has_stated_is_asked_for(cast: Cast, bay: CheckedClient) -> None:
    job = job_with(cast, {"capacity": None, "drained": None})
    (circuit,) = bay.get(f"jobs/{job.pk}/circuits").json()["items"]
    assert (circuit["capacity"], circuit["drained"], circuit["capacity_words"]) == (None, None, "not recorded")
    assert "Ask the counter to add it to the vehicle" in ask(job, "5", "42")["no"]["words"]
    Vehicle.objects.filter(pk=job.vehicle_id).update(capacities={"coolant": "9.8"})
    assert mix(job, "5", "42")["after"] == "10.2"


def test_several_circuits_are_mixed_each_by_its_name(cast: Cast, bay: CheckedClient) -> None:
    job = job_with(cast, {}, {"of": "charge cooling", "capacity": "3"})
    items = bay.get(f"jobs/{job.pk}/circuits").json()["items"]
    assert [item["title"] for item in items] == ["Coolant", "Charge cooling"]
    mixture = mix(job, "3", "0", name="charge cooling")
    assert (mixture["stays"], mixture["fill"]) == ("0", "3.4")


def test_a_job_from_before_circuits_were_kept_has_none(cast: Cast, bay: CheckedClient) -> None:
    for job in (JobFactory(shop=cast.shop), PullListFactory(shop=cast.shop).job):
        assert bay.get(f"jobs/{job.pk}/circuits").json() == {"items": []}


def test_every_member_may_mix_and_another_shop_sees_nothing(cast: Cast) -> None:
    job = job_with(cast, {})
    for role in ("advisor", "parts", "technician", "manager"):
        (circuit,) = cast.signed_in(role).get(f"jobs/{job.pk}/circuits").json()["items"]
        assert circuit["name"] == "coolant"
    stranger = CheckedClient(shop=cast.elsewhere.slug)
    stranger.force_login(cast.stranger.user)
    assert stranger.get(f"jobs/{job.pk}/circuits").status_code == 404


def test_the_server_mixes_nothing_for_the_bay(cast: Cast, bay: CheckedClient) -> None:
    address = f"jobs/{job_with(cast, {}).pk}/circuits/coolant/mix"
    assert bay.get(address, {"drained": "9.6", "reading": "42"}).status_code == 404


@pytest.mark.both
def test_it_costs_the_same_however_much_the_job_holds(cast: Cast, bay: CheckedClient) -> None:
    def queries(job: Job) -> int:
        with CaptureQueriesContext(connection) as queries:
            assert bay.get(f"jobs/{job.pk}/circuits").status_code == 200
        return len(queries)

    small, large = job_with(cast, {}), job_with(cast, {}, *({"of": f"circuit {n}"} for n in range(20)))
    for _ in range(5):
        PullListFactory(shop=cast.shop, job=large)
    few = queries(small)
    assert queries(large) <= few


@pytest.fixture
def stage(cast: Cast) -> Stage:
    """The small workshop, its turbocharger kit adding 0.4 L to a circuit of 14.2 L."""
    stage = make_stage(cast)
    revision = KitRevision.objects.get(kit=stage.turbo)
    for position, (rule, family, specification) in enumerate(
        [("refill", "Coolant concentrate", "ethylene glycol"), ("refill_water", "Demineralised water", "")], start=2
    ):
        fluid = ConsumableFactory(shop=cast.shop, family=family, specification=specification)
        OfferFactory(shop=cast.shop, part=PackFactory(shop=cast.shop, consumable=fluid))
        Need.objects.create(
            shop=cast.shop,
            revision=revision,
            position=position,
            consumable=fluid,
            rule=rule,
            quantity=Decimal("0.4"),
            basis="coolant",
        )
    Vehicle.objects.filter(pk=stage.vehicle.pk).update(capacities={"engine oil": "6.1", "coolant": "14.2"})
    return stage


def test_the_lines_of_the_quote_say_the_mix_and_its_protection(stage: Stage) -> None:
    needs = {need["title"].split(",")[0]: need["why"] for need in stage.quote(stage.turbo).json()["needs"]}
    for fluid in ("Coolant concentrate", "Demineralised water"):
        assert any("4.8 L concentrate" in why and "4.8 L water" in why for why in needs[fluid]), needs[fluid]
        assert "freezes at about \u221237 °C at 50 %" in needs[fluid]


@pytest.mark.parametrize(("residual", "fluid"), [("0.30", "concentrate"), ("0.65", "water")])
def test_a_quote_whose_target_is_out_of_reach_says_what_to_do(stage: Stage, residual: str, fluid: str) -> None:
    rules = RuleSet.objects.get()
    rules.rules |= {"coolant": {"drained_share": "0.05", "residual": residual}}
    rules.save()
    quote = stage.quote(stage.turbo).json()
    lines = [need["why"] for need in quote["needs"] if need["unit"] == "L" and "engine" not in need["title"]]
    notice = next(notice["words"] for notice in quote["notices"] if notice["code"].startswith("mix_"))
    assert re.search(rf"50 %. Drain at least \d+(\.\d)? L in all, then fill with pure {fluid}\.$", notice), notice
    assert len(lines) == 2 and all(notice in why for why in lines)


def test_what_is_sold_keeps_the_circuit_without_a_price_and_the_job_gets_it(stage: Stage) -> None:
    url = stage.sent(stage.turbo)["link"]["url"]
    (sold,) = frozen.read(Revision.objects.get())["circuits"]
    assert (sold["of"], sold["capacity"], sold["added"], sold["drained"]) == ("coolant", "14.2", "0.4", "9.23")
    assert (sold["title"], sold["glycol"]) == ("Coolant concentrate, ethylene glycol", "ethylene")
    assert not {key for key in keys_of(sold) if "cost" in key or "price" in key}
    assert "circuits" not in for_customer(frozen.read(Revision.objects.get()))
    Phone(url).answer()
    assert PullList.objects.get().facts["circuits"] == [sold]
    technician = stage.cast.signed_in("technician")
    (circuit,) = technician.get(f"jobs/{Job.objects.get().pk}/circuits").json()["items"]
    assert (circuit["after"], circuit["capacity_words"]) == ("14.6", "from the vehicle's page")


def test_a_quote_sent_before_circuits_were_kept_can_still_be_accepted(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    url = stage.sent(stage.turbo)["link"]["url"]
    whole = frozen.read

    def before(revision: Revision) -> dict[str, Any]:
        return {name: value for name, value in whole(revision).items() if name != "circuits"}

    monkeypatch.setattr(acceptance.frozen, "read", before)
    Phone(url).answer()
    assert PullList.objects.get().facts["circuits"] == []
    technician = stage.cast.signed_in("technician")
    assert technician.get(f"jobs/{Job.objects.get().pk}/circuits").json() == {"items": []}
