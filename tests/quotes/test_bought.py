"""The landed cost of what is bought, step by step, where costs may be seen and nowhere else."""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from kitting.models import Need, Offer, Part
from quotes.models import Revision
from quotes.services import sending
from shop.models import OperationPair, Rate, RuleSet
from tests.factories import OfferFactory
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once


def bought(stage: Stage, quote: dict[str, Any]) -> dict[str, dict[str, Any]]:
    answer = stage.client.get(f"quotes/{quote['id']}/margin")
    assert answer.status_code == 200, answer.content
    return {line["title"]: line for line in answer.json()["bought"]}


def steps(line: dict[str, Any]) -> list[tuple[str, str]]:
    return [(step["words"], step["figure"]) for step in line["how"]]


def imported(stage: Stage, **fields: Any) -> None:
    """The towing kit comes from abroad as well, by a newer offer with freight, duty and brokerage."""
    offer = Offer.objects.get(part=stage.towing.part)
    day = offer.valid_from + timedelta(days=1)
    cost = {"duty_rate": "0.035", "freight": "60.0000", "brokerage": "45.0000", "unit_cost": "1480.0000"} | fields
    OfferFactory(
        shop=stage.cast.shop,
        supplier=offer.supplier,
        part=offer.part,
        currency="USD",
        valid_from=day,
        **{name: Decimal(value) for name, value in cost.items()},
    )


def test_an_import_shows_every_step_to_cost_and_price(stage: Stage) -> None:
    imported(stage)
    line = bought(stage, stage.quote().json())["Towing kit"]
    rate_day = Rate.objects.get().valid_from
    age = f"rate of {rate_day.day} {rate_day:%b}, 5 days old"
    assert steps(line) == [
        ("The supplier's price", "1,480.00 USD"),
        (f"In EUR, 0.9 for one USD, {age}", "1,332.00"),
        ("Freight, 60.00 USD", "54.00"),
        ("Duty, 3.5 % of 1,332.00", "46.62"),
        ("Brokerage", "45.00"),
        ("Landed cost", "1,477.62"),
        ("The first 100.00 × 1.5", "150.00"),
        ("What is above 100.00: 1,377.62 × 1.2", "1,653.14"),
        ("Sells for", "1,803.14"),
        ("Tax inside it", "− 300.52"),
        ("Before tax", "1,502.62"),
        ("Less landed cost", "− 1,477.62"),
        ("Profit before tax", "25.00"),
    ]
    assert (line["goods"], line["freight"], line["duty"], line["brokerage"]) == (
        "1332.00",
        "54.00",
        "46.62",
        "45.00",
    )
    assert (line["rate"], line["rate_date"], line["rate_age_days"]) == ("0.9", rate_day.isoformat(), 5)
    assert line["words"][1] == f"USD at 0.9, {age}" and line["quantity"] == "1"


def test_a_floored_price_says_when_the_band_before_decides(stage: Stage) -> None:
    floored = {"mode": "floored", "bands": [{"up_to": "390", "x": "1.50"}, {"x": "1.20"}]}
    RuleSet.objects.update(rules=RULES | {"markup": floored})
    line = bought(stage, stage.quote().json())["Towing kit"]
    assert steps(line)[-7:-4] == [
        ("400.00 × 1.2", "480.00"),
        ("Not below the highest price of the band below", "585.00"),
        ("Sells for", "585.00"),
    ]
    assert "never below" in line["rule"][1]


def test_a_price_of_the_bands_is_rounded_up_to_the_step_of_the_rules(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"markup": RULES["markup"] | {"step": "1"}})
    imported(stage)
    quote = stage.quote().json()
    assert next(kit["price"] for kit in quote["kits"] if kit["title"] == "Towing kit") == "1804.00"
    assert steps(bought(stage, quote)["Towing kit"])[-6:-3] == [
        ("1,803.14 rounded up to a multiple of 1", "1,804.00"),
        ("Sells for", "1,804.00"),
        ("Tax inside it", "− 300.67"),
    ]


def test_the_workshops_own_price_is_not_rounded_up(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"markup": RULES["markup"] | {"step": "1"}})
    Offer.objects.filter(part__number="OIL-1").update(unit_cost=Decimal("7.03"))
    plain = bought(stage, stage.quote().json())["Part OIL-1"]
    Part.objects.filter(number="OIL-1").update(selling_price=Decimal("10.55"))
    own = bought(stage, stage.quote().json())["Part OIL-1"]
    assert (plain["sells"], own["sells"]) == ("11.00", "10.55")


def test_what_is_bought_at_home_is_said_simply(stage: Stage) -> None:
    lines = bought(stage, stage.quote().json())
    assert steps(lines["Towing kit"])[:2] == [("The supplier's price", "400.00"), ("Landed cost", "400.00")]
    assert lines["Towing kit"]["rate"] is None and lines["Towing kit"]["rate_age_days"] is None
    assert lines["Part OIL-1"]["quantity"] == "2" and lines["Part OIL-5"]["landed"] == "30.00"


def test_duty_may_be_taken_on_the_freight_too(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"duty_base": "goods_and_freight"})
    imported(stage)
    line = bought(stage, stage.quote().json())["Towing kit"]
    assert ("Duty, 3.5 % of goods and freight, 1,386.00", "48.51") in steps(line)


def test_a_sent_version_keeps_the_steps_of_the_day_it_was_sent(stage: Stage) -> None:
    imported(stage)
    sent = stage.sent(below_floor=True)["quote"]
    before = bought(stage, sent)
    assert len(before["Towing kit"]["how"]) == 13
    put_right = date.today() - timedelta(days=1)
    Rate.objects.create(shop=stage.cast.shop, currency="USD", valid_from=put_right, rate=Decimal("1.5"))
    Offer.objects.update(unit_cost=Decimal(1))
    pair = OperationPair.objects.get()
    for a, b in (
        (pair.operation, pair.other),
        (pair.other, pair.operation),
    ):  # today's templates could not even be priced
        OperationPair.objects.create(shop=stage.cast.shop, kind="includes", operation=a, other=b)
    assert bought(stage, sent) == before


@pytest.mark.both
def test_what_it_cost_is_kept_apart_from_what_the_customer_sees(stage: Stage) -> None:
    imported(stage)
    stage.sent(below_floor=True)
    revision = Revision.objects.get()
    assert "1,477.62" in str(revision.bought) and "1,477.62" not in revision.snapshot
    with pytest.raises(IntegrityError, match="sent_revision_never_changes"), transaction.atomic():
        Revision.objects.update(bought={})


def test_a_version_sent_before_it_was_kept_has_its_margin_alone(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sending, "frozen_costs", lambda *_: {})
    sent = stage.sent()["quote"]
    answer = stage.client.get(f"quotes/{sent['id']}/margin").json()
    assert (answer["bought"], answer["bought_sum"]) == ([], None)
    assert Decimal(answer["cost"]) > 0


def test_a_price_with_tax_inside_is_told_before_tax_beside_the_cost(stage: Stage) -> None:
    """1,110.00 holds 20 %: 925.00 before tax, 25.00 above the 900.00 it costs, not 210.00."""
    lines = bought(stage, stage.quote().json())
    turbo = lines["Turbocharger kit"]
    assert turbo["says"] == ["sells for 1,110.00 with tax inside, 925.00 before tax", "profit 25.00 before tax"]
    assert (turbo["sells"], turbo["sells_net"], turbo["landed"]) == ("1110.00", "925.00", "900.00")
    assert lines["Part OIL-1"]["says"] == [
        "sells for 12.00 with tax inside, 10.00 before tax",
        "for 2: 20.00 before tax, cost 16.00, profit 4.00",
    ]
    assert steps(lines["Part OIL-1"])[-3:] == [
        ("This quote charges for 2, before tax", "20.00"),
        ("Less the landed cost of 2", "− 16.00"),
        ("Profit before tax", "4.00"),
    ]


def test_the_sum_of_what_is_bought_is_the_sum_of_its_lines(stage: Stage) -> None:
    answer = stage.client.get(f"quotes/{stage.quote().json()['id']}/margin").json()
    for name in ("cost", "net", "profit"):
        assert Decimal(answer["bought_sum"][name]) == sum(Decimal(line[name]) for line in answer["bought"])
    # 925.00 + 425.00 + (69.00 with tax) 57.50, less 900 + 400 + 46
    assert answer["bought_sum"] == {"cost": "1346.00", "net": "1407.50", "profit": "61.50"}


def test_a_price_without_tax_is_not_taken_down_again(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"prices_include_tax": False})
    line = bought(stage, stage.quote().json())["Turbocharger kit"]
    assert line["says"] == ["sells for 1,110.00 before tax", "profit 210.00 before tax"]
    assert "Tax inside it" not in dict(steps(line))


def test_a_persons_own_price_decides_what_a_kit_leaves(stage: Stage) -> None:
    first = stage.quote()
    kit = first.json()["kits"][0]["key"]
    body = {"value": "960", "because": "promised"}
    stage.client.put(f"quotes/{first.json()['id']}/overrides/{kit}", body, seen=first)
    line = bought(stage, first.json())["Turbocharger kit"]
    assert line["says"][1:] == ["charged here 960.00 with tax inside, 800.00 before tax", "profit − 100.00 before tax"]
    assert line["profit"] == "-100.00" and steps(line)[-1] == ("Profit before tax", "− 100.00")


def test_packs_within_the_shop_supplies_are_charged_nothing(stage: Stage) -> None:
    Need.objects.update(charge="supplies")
    line = bought(stage, stage.quote().json())["Part OIL-5"]
    assert line["says"][1:] == ["not charged here", "profit − 26.15 before tax"]


def test_it_costs_the_database_no_more_for_more_rows(stage: Stage) -> None:
    small = stage.quote(stage.turbo).json()
    few = queries(lambda: stage.client.get(f"quotes/{small['id']}/margin"))
    grow(stage)
    large = stage.quote().json()
    assert queries(lambda: stage.client.get(f"quotes/{large['id']}/margin")) <= few
