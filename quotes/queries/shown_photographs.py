"""The photographs of what happened that the customer sees on the link."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from quotes.models import Occurrence, OccurrencePhotograph, Quote, Revision, ShownPhotograph
from quotes.queries.line_photographs import shown_picture
from shop.models import StoredFile


@dataclass(frozen=True, slots=True)
class CustomerPhotograph:
    """A photograph that an advisor shows: what happened, and the mark with the small copy."""

    occurrence: Occurrence
    mark: ShownPhotograph


def newest_marks(shop: Any, photographs: Iterable[UUID]) -> dict[UUID, ShownPhotograph]:
    """Maps a photograph to its newest mark."""
    rows = ShownPhotograph.objects.filter(shop=shop, photograph__in=list(photographs)).select_related("file")
    return {row.photograph_id: row for row in rows.order_by("recorded_at", "id")}


def customer_photographs(quote: Quote) -> list[CustomerPhotograph]:
    """Those that are shown of what happened by this quote's lines, the oldest first. A reversed record has none."""
    if quote.job_id is None:
        return []
    links = OccurrencePhotograph.objects.filter(shop=quote.shop_id, job=quote.job_id, line__revision__quote=quote)
    rows = list(links.select_related("occurrence__line").order_by("occurrence__recorded_at", "id"))
    if not rows:
        return []
    opposite = Occurrence.objects.filter(shop=quote.shop_id, job=quote.job_id, reversed_occurrence__isnull=False)
    reversed_ids = set(opposite.values_list("reversed_occurrence_id", flat=True))
    marks = newest_marks(quote.shop_id, [row.photograph_id for row in rows])
    return [
        CustomerPhotograph(row.occurrence, mark)
        for row in rows
        if (mark := marks.get(row.photograph_id)) and mark.shown and row.occurrence_id not in reversed_ids
    ]


def customer_picture(quote: Quote, newest: Revision | None, id: UUID) -> StoredFile | None:
    """The small copy of a photograph of what happened, or of a line of the newest sent version; None for others."""
    rows = customer_photographs(quote)
    file = next((row.mark.file for row in rows if row.mark.photograph_id == id), None)
    return shown_picture(newest, id) if newest and file is None else file
