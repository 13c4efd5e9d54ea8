"""The person who imported a file, who stands in its history."""

from shop.models import FileRead, History


def taker_of(row: FileRead) -> str | None:
    """The name of the person who imported the file; None before that, and where a command did it."""
    if row.taken_at is None:
        return None
    lines = History.objects.filter(shop=row.shop_id, subject="fileread", subject_id=row.pk, verb="imported")
    line = lines.select_related("author__user").first()
    return line.author.user.name if line and line.author else None
