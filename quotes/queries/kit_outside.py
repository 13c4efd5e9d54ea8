"""Reads the work of other firms that goes with the kits of a draft and is not on it yet."""

from collections.abc import Iterator

from kitting.models import KitOutside
from quotes.models import Line, OutsideWork, Revision
from shop.calc.keys import search_key


def outside_of_kits(revision: Revision) -> Iterator[tuple[Line, KitOutside]]:
    """(line of the kit, its outside work) in the order of the lines; each work of a firm once. Three queries."""
    lines = Line.objects.filter(shop=revision.shop, revision=revision, kind=Line.Kind.KIT).order_by("position")
    by_kit = {line.kit_revision_id: line for line in reversed(lines)}
    rows = KitOutside.objects.filter(shop=revision.shop, revision__in=list(by_kit))
    works = list(rows.select_related("firm", "starts_after", "needed_by")) if by_kit else []
    if not works:
        return
    quoted = OutsideWork.objects.filter(shop=revision.shop, revision=revision).select_related("line")
    taken = {(work.firm_id, search_key(work.line.title)) for work in quoted}
    for work in sorted(works, key=lambda work: (by_kit[work.revision_id].position, work.position)):
        names = work.firm_id, search_key(work.title)
        if names not in taken:
            taken.add(names)
            yield by_kit[work.revision_id], work
