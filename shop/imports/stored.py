"""The shop's customers, vehicles and labour as the rows of a file that can be imported again."""

from collections.abc import Container, Iterable
from decimal import Decimal

from shop.access import Actor
from shop.calc.quantity import plain
from shop.imports.labour_rows import newest_templates, stored_includes
from shop.models import Customer, Operation, OperationCaution, OperationPair, OperationValue, TemplateStep, Vehicle
from shop.queries.operations import FLAGS
from shop.queries.templates import conditions_text
from shop.tables.writing import FileRow, StoredRows


def customers(actor: Actor) -> StoredRows:
    rows = Customer.objects.filter(shop=actor.shop, archived=False).order_by("name_key", "id")
    return {
        "customers": [
            {"name": row.name, "phone": row.phone, "email": row.email, "address": row.address}
            for row in rows.only("name", "phone", "email", "address")
        ]
    }


def vehicles(actor: Actor, attributes: Container[str], capacities: Container[str]) -> StoredRows:
    """`attributes` and `capacities` are those that have a column of their own."""
    rows = Vehicle.objects.filter(shop=actor.shop).select_related("customer").order_by("title_key", "id")
    return {"vehicles": [_vehicle(row, attributes, capacities) for row in rows]}


def _vehicle(row: Vehicle, attributes: Container[str], capacities: Container[str]) -> FileRow:
    values = {name if name in attributes else f"attribute:{name}": value for name, value in row.attributes.items()}
    litres = {
        f"capacity {name}" if name in capacities else f"capacity:{name}": Decimal(amount)
        for name, amount in row.capacities.items()
    }
    owner = row.customer.name if row.customer else ""
    return {"title": row.title, "customer": owner, "vin": row.vin, "plate": row.plate, **values, **litres}


def labour(actor: Actor) -> StoredRows:
    """The operations and the latest versions of the templates that are not archived."""
    return {"operations": _operations(actor), "templates": _steps(actor)}


def _operations(actor: Actor) -> list[FileRow]:
    includes, overlaps = stored_includes(actor, ()), _overlaps(actor)
    cautions, torques, others = _cautions(actor), _values(actor, "torque"), _values(actor, "other")
    return [
        {
            "code": row.code,
            "title": row.title,
            "skill": row.skill,
            "hours": row.book_hours,
            "sharing": row.sharing,
            **{flag: "yes" if getattr(row, flag) else "" for flag in FLAGS},
            "wait_after": row.wait_after or None,
            "includes": "; ".join(includes.get(row.code, ())),
            "overlaps": "; ".join(overlaps.get(row.code, ())),
            "cautions": " | ".join(cautions.get(row.code, ())),
            "torques": " | ".join(torques.get(row.code, ())),
            "others": " | ".join(others.get(row.code, ())),
        }
        for row in Operation.objects.filter(shop=actor.shop, archived=False).order_by("code")
    ]


def _overlaps(actor: Actor) -> dict[str, list[str]]:
    """{operation: its overlaps}; each overlap stands with the first of its two operations."""
    rows = OperationPair.objects.filter(shop=actor.shop, kind="overlap").order_by("operation__code", "other__code")
    return _by_code((a, f"{b} {plain(hours)}") for a, b, hours in rows.values_list(*PAIR))


PAIR = ("operation__code", "other__code", "hours")


def _cautions(actor: Actor) -> dict[str, list[str]]:
    rows = OperationCaution.objects.filter(shop=actor.shop).order_by("operation__code", "position")
    return _by_code(rows.values_list("operation__code", "text"))


def _values(actor: Actor, kind: str) -> dict[str, list[str]]:
    rows = OperationValue.objects.filter(shop=actor.shop, kind=kind).order_by("operation__code", "position")
    values = rows.values_list("operation__code", "fastener", "value")
    return _by_code((code, f"{fastener}: {value}") for code, fastener, value in values)


def _by_code(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    texts: dict[str, list[str]] = {}
    for code, text in pairs:
        texts.setdefault(code, []).append(text)
    return texts


def _steps(actor: Actor) -> list[FileRow]:
    newest = [row.pk for row in newest_templates(actor).values() if not row.archived]
    rows = TemplateStep.objects.filter(shop=actor.shop, template__in=newest)
    return [
        {
            "template": step.template.code,
            "position": step.position,
            "operation": step.operation.code,
            "hours": step.hours,
            "stage": step.stage,
            "after": "; ".join(step.after) or "-",
            "when": conditions_text(step.conditions),
        }
        for step in rows.select_related("template", "operation").order_by("template__code", "position")
    ]
