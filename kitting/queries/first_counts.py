"""Reads the first counts of a kit and compares those of the newest series."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from kitting.calc.first_count import FirstList, HandCount, HandCountedLine, first_list
from kitting.models import FirstCount, Kit, KitLine, KitRevision


def counts_of(kit: Kit) -> list[FirstCount]:
    """The counts of the newest series, in the order in which they were made, with their authors."""
    rows = FirstCount.objects.filter(shop=kit.shop_id, kit=kit).select_related("author", "author__user")
    counts = list(rows.order_by("number"))
    return [count for count in counts if count.series == counts[-1].series]


def compared(counts: Iterable[FirstCount]) -> FirstList:
    return first_list([HandCount(count.whole, tuple(map(line_of, count.lines))) for count in counts])


def line_of(line: Mapping[str, Any]) -> HandCountedLine:
    """A stored line."""
    return HandCountedLine(line["carton"], line["bag"], line["number"], Decimal(line["quantity"]), line["unit"])


def newest_revision(kit: Kit) -> KitRevision | None:
    """The kit's newest version with its labour template."""
    rows = KitRevision.objects.filter(shop=kit.shop_id, kit=kit).select_related("labour")
    return rows.order_by("-number").first()


def has_contents(revision: KitRevision | None) -> bool:
    return revision is not None and KitLine.objects.filter(shop=revision.shop_id, revision=revision).exists()
