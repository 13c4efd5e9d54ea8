"""The contents of one version of a kit as the rows of the file that a kit is imported from."""

from collections.abc import Iterator

from kitting.models import KitLine, KitOutside, KitRevision, Need, ReusedPart
from shop.queries.templates import conditions_text
from shop.tables.writing import TITLE, FileRow, StoredRows

NEED_RULES = {
    "fixed": "fixed",
    "per_fastener": "per fastener",
    "bead": "bead",
    "of_capacity": "of capacity",
    "refill": "refill",
    "refill_water": "refill water",
}
"""The words of a file for rules that are stored under another name."""


def kit_file_rows(revision: KitRevision) -> StoredRows:
    """The sheets of the file, with the selling price and what other firms ask."""
    return {
        TITLE: [_title(revision)],
        "lines": list(_lines(revision)),
        "needs": list(_needs(revision)),
        "re-used": list(_reused(revision)),
        "outside work": list(_outside(revision)),
    }


def _title(revision: KitRevision) -> FileRow:
    kit = revision.kit
    supplier = kit.part.preferred
    facts: FileRow = {
        "kit": kit.code,
        "title": kit.title,
        "number": kit.part.number,
        "labour": revision.labour.code if revision.labour else None,
        "fits": conditions_text(kit.fits),
        "price": revision.price,
        "hours": revision.hours,
        "supplier": supplier.name if supplier else None,
        "returnable": None if kit.part.returnable else "no",
    }
    return {name: value for name, value in facts.items() if value not in (None, "")}


def _lines(revision: KitRevision) -> Iterator[FileRow]:
    rows = KitLine.objects.filter(shop=revision.shop_id, revision=revision)
    places: dict[object, tuple[str, str]] = {None: ("", "")}  # {line: its carton and bag}
    for row in rows.select_related("part", "operation").order_by("position"):
        carton, bag = places[row.parent_id]
        if row.part is None:
            places[row.pk] = (row.label, "") if row.kind == "carton" else (carton, row.label)
            continue
        yield {
            "carton": carton,
            "bag": bag,
            "number": row.part.number,
            "title": row.part.title,
            "quantity": row.quantity,
            "unit": row.part.unit,
            "when": conditions_text(row.conditions),
            "ships": "only when it fits" if row.ships == "when" else "",
            "role": "" if row.role == "fit" else row.role,
            "operation": row.operation.code if row.operation else "",
            "returnable": None if row.part.returnable else "no",
        }


def _needs(revision: KitRevision) -> Iterator[FileRow]:
    rows = Need.objects.filter(shop=revision.shop_id, revision=revision)
    for row in rows.select_related("consumable", "part", "operation").order_by("position"):
        yield {
            "family": row.consumable.family if row.consumable else "",
            "specification": row.consumable.specification if row.consumable else "",
            "number": row.part.number if row.part else "",
            "title": row.part.title if row.part else "",
            "rule": NEED_RULES[row.rule],
            "quantity": row.quantity,
            "of": row.basis,
            "charge": row.charge,
            "operation": row.operation.code if row.operation else "",
        }


def _reused(revision: KitRevision) -> Iterator[FileRow]:
    rows = ReusedPart.objects.filter(shop=revision.shop_id, revision=revision)
    for row in rows.select_related("off_at", "back_at").order_by("position"):
        yield {
            "title": row.title,
            "quantity": row.quantity,
            "off_at": row.off_at.code if row.off_at else "",
            "back_at": row.back_at.code if row.back_at else "",
        }


def _outside(revision: KitRevision) -> Iterator[FileRow]:
    rows = KitOutside.objects.filter(shop=revision.shop_id, revision=revision)
    for row in rows.select_related("firm", "starts_after", "needed_by").order_by("position"):
        yield {
            "title": row.title,
            "firm": row.firm.name,
            "cost": row.cost,
            "tax_class": row.tax_class,
            "markup": row.markup,
            "handling": row.handling,
            "days": row.days,
            "starts_after": row.starts_after.code if row.starts_after else "",
            "needed_by": row.needed_by.code if row.needed_by else "",
            "they_do": row.they_do,
            "they_need": row.they_need,
            "warranty": row.warranty,
            "we_warrant": row.we_warrant,
            "rounds": row.rounds,
            "per_round": "yes" if row.per_round else "",
        }
