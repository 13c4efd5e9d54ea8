"""A range by phone without a vehicle: the later quote for the same facts is never outside it."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from random import Random
from typing import Any

import pytest

from kitting.models import Kit, KitRevision, Need
from quotes.calc.quote_input import AgreedDiscount
from quotes.models import Line
from quotes.presenters.undecided import range_answer
from quotes.queries.pricing import figures_of
from quotes.queries.rows import QuoteRows, kit_rows
from shop.calc.rules import Rules
from shop.models import TemplateStep, Vehicle
from tests.factories import VehicleFactory
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

T35: list[dict[str, Any]] = [{"attribute": "model", "in": ["T35"]}]
AUTOMATIC = [{"attribute": "transmission", "in": ["automatic"]}]


def vehicle(stage: Stage, litres: str | None, model: str = "T35", transmission: str = "manual") -> Vehicle:
    attributes = {"model": model, "transmission": transmission}
    row: Vehicle = VehicleFactory(
        shop=stage.shop, attributes=attributes, capacities={"engine oil": litres} if litres else {}
    )
    return row


def spoken(stage: Stage) -> str:
    answer = stage.client.get(f"kits/{stage.turbo.pk}/price-range")
    words: str = answer.json()["range"]["words"]
    return words


def test_fluids_are_those_of_the_smallest_and_the_largest_vehicle_that_the_kit_fits(stage: Stage) -> None:
    Kit.objects.filter(pk=stage.turbo.pk).update(fits=T35)
    left_out = spoken(stage)
    assert left_out.endswith("; without fluids whose amount depends on the vehicle")
    vehicle(stage, None)
    vehicle(stage, "30.0", model="Hauler")  # of another model
    assert spoken(stage) == left_out
    vehicle(stage, "4.8")
    narrow = spoken(stage)
    assert "depends on" not in narrow and "without" not in narrow
    vehicle(stage, "11.2")
    assert spoken(stage).endswith("; depends on: the litres that the vehicle takes")


def test_two_hundred_later_quotes_for_the_same_facts_lie_within_it(stage: Stage) -> None:
    chance = Random(35)
    Kit.objects.filter(pk=stage.turbo.pk).update(fits=T35)
    TemplateStep.objects.filter(operation__code="BUMPER", template__code="BI-T").update(conditions=AUTOMATIC)
    vehicles = [
        vehicle(stage, f"{chance.randint(30, 140) / Decimal(10)}", transmission=chance.choice(("manual", "automatic")))
        for _ in range(12)
    ]
    rows = {charge: turbo_rows(stage, charge) for charge in ("pack", "used", "supplies")}
    outside, different = [], set()
    for _ in range(200):
        choices = with_random_choices(chance.choice([*rows.values()]), chance)
        (low, high), total = ends(choices), later(choices, chance.choice(vehicles))
        different.add((low, high))
        if not low <= total <= high:
            outside.append((low, total, high))
    assert outside == [] and len(different) > 50


def turbo_rows(stage: Stage, charge: str) -> QuoteRows:
    """The rows of a quote of the turbocharger kit without a vehicle, its oil charged in this way."""
    Need.objects.update(charge=charge)
    revision = KitRevision.objects.select_related("shop", "kit__part").get(kit=stage.turbo)
    return kit_rows(revision, Rules.from_json(RULES), date(2026, 12, 1))


def with_random_choices(rows: QuoteRows, chance: Random) -> QuoteRows:
    """The rows with random goods, what may happen, a state of the fasteners and a discount."""
    lines = [written(rows, chance, certain=True) for _ in range(chance.randint(0, 3))]
    lines += [written(rows, chance, certain=False) for _ in range(chance.randint(0, 2))]
    percent = chance.choice((None, None, Decimal(5), Decimal("12.5")))
    return replace(
        rows,
        lines=(*rows.lines, *lines),
        condition=chance.choice(("none", "light", "heavy")),
        discount=AgreedDiscount(percent, None, "agreed") if percent else None,
    )


def written(rows: QuoteRows, chance: Random, *, certain: bool) -> Line:
    return Line(
        shop=rows.shop,
        kind=Line.Kind.TEXT,
        title="Bracket",
        tax_class="part",
        quantity=Decimal(chance.randint(1, 4)),
        unit_price=Decimal(chance.randint(1, 90_000)) / 100,
        certain=certain,
        cap=None if certain else Decimal(3),
    )


def ends(rows: QuoteRows) -> tuple[Decimal, Decimal]:
    price_range = range_answer(figures_of(rows))
    assert price_range is not None
    return Decimal(price_range.low), Decimal(price_range.high)


def later(rows: QuoteRows, of: Vehicle) -> Decimal:
    """The total of the same choices once the vehicle is known."""
    total: Decimal = figures_of(replace(rows, vehicle=of, ends=())).priced.totals.gross
    return total
