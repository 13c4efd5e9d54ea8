"""Turns the rows of a revision's choices into the selections that a customer can make."""

from collections.abc import Collection, Iterator
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, QuerySet

from quotes.calc.choices import OfferedChoice, OfferedOption
from quotes.models import Choice, Line, Option, Revision
from shop.compiled import compiled


def offered_choices(revision: Revision) -> tuple[OfferedChoice, ...]:
    """Reads the choices in the order of the quote. One query where there are none."""
    choices = _choices(revision.shop_id, revision.pk)
    options: dict[object, list[OfferedOption]] = {choice.pk: [] for choice in choices}
    for row in _options(revision.shop_id, revision.pk) if choices else ():
        options[row.choice_id].append(OfferedOption(str(row.pk), row.title, row.preselected, row.has_lines))
    return tuple(OfferedChoice(str(row.pk), row.title, row.take, tuple(options[row.pk])) for row in choices)


@compiled
def _choices(shop: UUID, revision: UUID) -> QuerySet[Choice]:
    return Choice.objects.filter(shop=shop, revision=revision).order_by("position")


@compiled
def _options(shop: UUID, revision: UUID) -> QuerySet[Any]:
    lines = Line.objects.filter(shop=OuterRef("shop"), option=OuterRef("pk"))
    rows = Option.objects.filter(shop=shop, revision=revision)
    return rows.annotate(has_lines=Exists(lines)).order_by("position")


def taken_lines(revision: Revision, selection: Collection[str]) -> Iterator[Line]:
    """The lines that a sent revision charges, without those of options that are not taken, in their order."""
    for line in _charged_lines(revision.shop_id, revision.pk):
        if line.option_id is None or str(line.option_id) in selection:
            yield line


@compiled
def _charged_lines(shop: UUID, revision: UUID) -> QuerySet[Line]:
    rows = Line.objects.filter(shop=shop, revision=revision, certain=True)
    return rows.select_related("kit_revision__kit__part", "part", "operation").order_by("position")
