"""Labour templates: their newest versions, and a version as steps in their order."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from django.db.models import Count, OuterRef, Subquery, Sum
from django.db.models.functions import Coalesce

from shop.access import Actor
from shop.calc.template_changes import OrderedStep
from shop.models import LabourTemplate, OperationPair, TemplateStep

KitCounter = Callable[[LabourTemplate], int]
_kit_counters: list[KitCounter] = []


def register_kit_counter(counter: KitCounter) -> None:
    """Adds a counter of the kits that use any version of a template: kits are above this app."""
    _kit_counters.append(counter)


def kits_using(row: LabourTemplate) -> int:
    """The number of kits that use any version of the template."""
    return sum(counter(row) for counter in _kit_counters)


def newest_templates(actor: Actor) -> Any:
    """The newest version of each template, with `step_count` and `step_hours`."""
    rows = LabourTemplate.objects.filter(shop=actor.shop)
    same = LabourTemplate.objects.filter(shop=OuterRef("shop"), code=OuterRef("code")).order_by("-number")
    # Counted for the rows that are read, where a join would count the steps of every template first.
    steps = TemplateStep.objects.filter(shop=OuterRef("shop"), template=OuterRef("pk")).order_by().values("template")
    return rows.filter(pk=Subquery(same.values("pk")[:1])).annotate(
        step_count=Coalesce(Subquery(steps.values(count=Count("pk"))), 0),
        step_hours=Subquery(steps.values(sum=Sum("hours"))),
    )


def versions_of(row: LabourTemplate) -> list[LabourTemplate]:
    """All versions of the template, the newest first."""
    return list(LabourTemplate.objects.filter(shop=row.shop_id, code=row.code).order_by("-number"))


def is_archived(row: LabourTemplate) -> bool:
    """Returns whether the template is archived, which its newest version says."""
    return versions_of(row)[0].archived


def steps_of(row: LabourTemplate) -> list[TemplateStep]:
    steps = TemplateStep.objects.filter(shop=row.shop_id, template=row).select_related("operation")
    return list(steps.order_by("position"))


def pairs_among(actor: Actor, steps: Iterable[TemplateStep]) -> list[OperationPair]:
    """The inclusions and overlaps whose first operation is one of the steps."""
    rows = OperationPair.objects.filter(shop=actor.shop, operation__in=[step.operation_id for step in steps])
    return list(rows.select_related("operation", "other").order_by("operation__code", "other__code"))


def ordered(steps: Iterable[TemplateStep]) -> tuple[OrderedStep, ...]:
    return tuple(
        OrderedStep(step.operation.code, step.hours, step.stage, tuple(step.after), conditions_text(step.conditions))
        for step in steps
    )


def step_texts(step: Mapping[str, Any], code: str, position: int) -> dict[str, str]:
    """{column: text} of a step of a request, as its row in a file of labour."""
    after = [text for text in step["after"] if text.strip()]
    return {
        "template": code,
        "position": str(position),
        "operation": step["operation"],
        "hours": step["hours"],
        "stage": step["stage"],
        "after": "; ".join(after) or "-",
        "when": step["when"],
    }


def conditions_text(conditions: Iterable[Mapping[str, Any]]) -> str:
    """The conditions as a file has them: "drive=all; transmission=manual or automatic"."""
    return "; ".join(f"{condition['attribute']}={' or '.join(condition['in'])}" for condition in conditions)
