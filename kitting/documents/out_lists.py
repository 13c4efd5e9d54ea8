"""The kits of a shop as a list for a spreadsheet."""

from collections.abc import Iterator, Sequence

from kitting import access
from kitting.presenters.kits import kit_row
from shop.access import Actor
from shop.documents.list_registry import OutList, register
from shop.tables.writing import Content

COLUMNS = ("kit", "title", "supplier", "version", "lines", "cartons", "models")


def kits(actor: Actor) -> Iterator[Sequence[Content]]:
    for kit in access.kits_with_newest_revision(actor).order_by("title_key", "id").iterator(chunk_size=200):
        row = kit_row(kit, kit.newest[0] if kit.newest else None, None)
        yield row.code, row.title, row.supplier, row.revision, row.parts, row.cartons, "; ".join(row.models)


register(OutList("kits", COLUMNS, kits))
