"""Replaced numbers as answers."""

from kitting.answers.supersessions import ReplacedNumberOut
from kitting.models import Part


def replaced_number(row: Part) -> ReplacedNumberOut:
    """The row, which another one replaces."""
    newer = row.superseded_by
    assert newer is not None
    return ReplacedNumberOut(
        id=row.pk,
        number=row.number,
        title=row.title,
        newer=newer.number,
        newer_title=newer.title,
    )
