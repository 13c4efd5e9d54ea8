"""Parts whose number another one replaces."""

from kitting.models import Part
from shop.models import Shop

MARKS = 10**9  # the digits that If-Match may have


def newer_keys(shop: Shop) -> dict[str, str]:
    """{number key: that of the part that replaces it}, for the whole shop."""
    rows = Part.objects.filter(shop=shop, superseded_by__isnull=False)
    return dict(rows.values_list("number_key", "superseded_by__number_key"))


def mark_of(part: Part) -> int:
    """The version for If-Match. Parts have none, so it is made of the id of what replaces the part."""
    return part.superseded_by_id.int % MARKS if part.superseded_by_id else MARKS
