"""The stage with work that depends on the gearbox and on a sensor, of a vehicle of which neither is recorded."""

from decimal import Decimal
from typing import Any

from shop.models import TemplateStep
from tests.factories import OperationFactory
from tests.quotes.stage import Stage


def only(attribute: str, *values: str) -> list[dict[str, Any]]:
    return [{"attribute": attribute, "in": list(values)}]


def open_gearbox(stage: Stage) -> Stage:
    """Kit A takes 2.2 h more with an automatic gearbox, 0.4 h more with a manual one."""
    stage.as_before(_open_gearbox)
    stage.vehicle.attributes = {}
    return stage


def _open_gearbox(stage: Stage, _: Any) -> None:
    step(stage, "COOLER", "2.20", only("transmission", "automatic"))
    step(stage, "CLUTCH", "0.40", only("transmission", "manual"))
    stage.vehicle.attributes = {}
    stage.vehicle.save(update_fields=["attributes"])


def step(stage: Stage, code: str, hours: str, when: list[dict[str, Any]], kit: str = "BI-T") -> None:
    """One more step of a kit's template, before anything uses it."""
    shop = stage.cast.shop
    last = TemplateStep.objects.filter(template__code=kit).order_by("-position")[0]
    operation = OperationFactory(shop=shop, code=code, title=f"{code.title()} work")
    TemplateStep.objects.create(
        shop=shop,
        template=last.template,
        operation=operation,
        position=last.position + 1,
        hours=Decimal(hours),
        conditions=when,
    )
