"""Labour stands by install stage with the sums of each, and a first fit is said once."""

from decimal import Decimal

import pytest

from shop.models import TemplateStep
from tests.quotes.stage import Stage
from tests.quotes.test_how import with_rules

pytestmark = pytest.mark.once


def in_stages(stages: dict[str, str]) -> None:
    for code, name in stages.items():
        TemplateStep.objects.filter(operation__code=code).update(stage=name)


def test_the_sums_of_the_stages_are_the_labour(stage: Stage) -> None:
    codes = list(TemplateStep.objects.order_by("operation__code").values_list("operation__code", flat=True).distinct())
    in_stages(dict.fromkeys(codes, "2 strip") | {codes[0]: "1 reception", codes[-1]: ""})
    labour = stage.quote().json()["labour"]
    assert {part["title"] for part in labour["stages"]} == {"reception", "strip", "Other work"}
    keys = [operation["key"] for operation in labour["operations"]]
    assert sorted(key for part in labour["stages"] for key in part["keys"]) == sorted(keys)
    assert all(part["keys"] == sorted(part["keys"], key=keys.index) for part in labour["stages"])
    assert sum(Decimal(part["hours"]) for part in labour["stages"]) == Decimal(labour["hours"])
    assert sum(Decimal(part["price"]) for part in labour["stages"]) == Decimal(labour["amount"])


def test_two_templates_that_number_a_stage_differently_share_it(stage: Stage) -> None:
    TemplateStep.objects.update(stage="3 fit")
    TemplateStep.objects.filter(template=TemplateStep.objects.first().template).update(stage="4. fit")
    assert [part["title"] for part in stage.quote().json()["labour"]["stages"]] == ["fit"]


def test_a_first_fit_is_said_once_for_a_kit(stage: Stage) -> None:
    with_rules(first_fit_factor="1.25")
    quote = stage.quote(stage.turbo).json()
    assert [kit["first_fit"] for kit in quote["kits"]] == ["1.25"]
    assert not any("first fit" in why for operation in quote["labour"]["operations"] for why in operation["why"])
