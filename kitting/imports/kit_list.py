"""The list of a kit as it will become: cartons in the order of the file, in each its bags, in each its lines."""

from collections.abc import Iterable

from kitting.imports.kit_plan import ImportedKitLine, KitPlan
from shop.tables.parsed import ParsedFile, ParsedRow, PlannedLine

Places = dict[str, dict[str, list[PlannedLine]]]


def planned_lines(file: ParsedFile, plan: KitPlan) -> tuple[PlannedLine, ...]:
    """The lines by place. A row whose number could not be read is a line without one, at its place."""
    planned = {id(line.row): line for line in plan.lines}
    places: Places = {}
    for row in file.of("lines"):
        line = planned.get(id(row))
        entry = _line(line) if line else _unread(row)
        places.setdefault(entry.carton, {}).setdefault(entry.bag, []).append(entry)
    return tuple(line for bags in places.values() for lines in bags.values() for line in lines)


def _line(line: ImportedKitLine) -> PlannedLine:
    quantity = f"{line.quantity.normalize():f}" if line.row.get("quantity") else ""
    return PlannedLine(
        line.row,
        line.carton,
        line.bag,
        line.part.number,
        line.row.get("title", ""),
        quantity,
        line.part.unit,
        _when(line.when),
    )


def _when(conditions: Iterable[tuple[str, tuple[str, ...]]]) -> str:
    return "; ".join(f"{name}={' or '.join(values)}" for name, values in conditions)


def _unread(row: ParsedRow) -> PlannedLine:
    amount = row.get("quantity")
    quantity = f"{amount.amount.normalize():f}" if amount else ""
    return PlannedLine(row, row.get("carton", ""), row.get("bag", ""), "", row.get("title", ""), quantity, "pc", "")
