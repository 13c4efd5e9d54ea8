"""One operation as the texts of a form, which are the texts of its row in a file of labour."""

from decimal import Decimal

from django.db.models import Q

from shop.access import Actor
from shop.calc.quantity import plain
from shop.models import Operation, OperationPair, TemplateStep
from shop.queries.templates import kits_using, newest_templates

FLAGS = ("exposed", "no_return", "mobile_again", "hold_point", "wheels_off")
Texts = dict[str, str]


def operation_texts(operation: Operation) -> Texts:
    """{column: text} of the operation. An overlap stands with both of its operations."""
    cautions = operation.cautions.order_by("position").values_list("text", flat=True)
    values = list(operation.required_values.order_by("position").values_list("kind", "fastener", "value"))
    includes, overlaps = _pairs(operation)
    return {
        "code": operation.code,
        "title": operation.title,
        "skill": operation.skill,
        "hours": plain(operation.book_hours),
        "sharing": operation.sharing,
        **{flag: "yes" if getattr(operation, flag) else "no" for flag in FLAGS},
        "wait_after": str(operation.wait_after or ""),
        "includes": "\n".join(includes),
        "overlaps": "\n".join(overlaps),
        "cautions": "\n".join(cautions),
        "torques": "\n".join(f"{fastener}: {value}" for kind, fastener, value in values if kind == "torque"),
        "others": "\n".join(f"{fastener}: {value}" for kind, fastener, value in values if kind == "other"),
    }


def _pairs(operation: Operation) -> tuple[list[str], list[str]]:
    """The operations that it includes, and its overlaps as "CODE hours"."""
    pairs = OperationPair.objects.filter(shop=operation.shop_id).filter(
        Q(operation=operation) | Q(kind="overlap", other=operation)
    )
    includes, overlaps = [], []
    for pair in pairs.select_related("operation", "other"):
        other = pair.operation if pair.other_id == operation.pk else pair.other
        if pair.kind == OperationPair.Kind.INCLUDES:
            includes.append(other.code)
        else:
            overlaps.append(f"{other.code} {plain(pair.hours or Decimal(0))}")
    return sorted(includes), sorted(overlaps)


def templates_with(actor: Actor, operation: Operation) -> list[str]:
    """The codes of the templates whose latest version has the operation as a step.

    An archived template counts only as long as kits use it.
    """
    steps = TemplateStep.objects.filter(shop=actor.shop, operation=operation)
    latest = newest_templates(actor).filter(pk__in=steps.values("template"))
    return sorted(row.code for row in latest if not row.archived or kits_using(row))


def paired_with(actor: Actor, operation: Operation) -> list[str]:
    """The codes of the operations that include this one."""
    pairs = OperationPair.objects.filter(shop=actor.shop, kind="includes", other=operation)
    return sorted(pairs.values_list("operation__code", flat=True))
