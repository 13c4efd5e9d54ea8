"""The photographs of a quote's lines."""

from uuid import UUID

from django.db.models import QuerySet

from quotes.models import LinePhotograph, Revision
from shop.compiled import compiled
from shop.models import StoredFile


def line_photographs(revision: Revision) -> list[LinePhotograph]:
    """All of a version, in the order in which they were added, with their small copies."""
    return _line_photographs(revision.shop_id, revision.pk)


@compiled
def _line_photographs(shop: UUID, revision: UUID) -> QuerySet[LinePhotograph]:
    return LinePhotograph.objects.filter(shop=shop, revision=revision).select_related("small").order_by("id")


def shown_picture(revision: Revision, id: UUID) -> StoredFile | None:
    """The small copy of a photograph that the customer of this version sees; None for any other."""
    rows = LinePhotograph.objects.filter(shop=revision.shop_id, revision=revision, shown=True, pk=id)
    row = rows.select_related("small").first()
    return row.small if row else None
