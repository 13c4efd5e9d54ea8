"""Reads the input of pricing and planning from lines of outside work."""

from collections.abc import Iterable, Iterator, Mapping
from uuid import UUID

from quotes.calc.outside import OutsideTerms
from quotes.calc.quote_input import ChosenOutside, OutsideDetails
from quotes.models import Line, OutsideWork, Revision
from shop.calc.outside import PlannedOutsideWork as Planned
from shop.models import Shop
from shop.words import say

CODE = "outside:"  # and the id of its line: the code of outside work in a plan and on a job's sheet


def chosen_outside(shop: Shop, revision: Revision, lines: Iterable[Line]) -> Iterator[ChosenOutside]:
    """Outside work in the order of its lines. One query; none without such lines."""
    chosen = [line for line in lines if line.kind == Line.Kind.OUTSIDE]
    works = works_of(shop, revision) if chosen else {}
    for line in chosen:
        row = works[line.pk]
        yield ChosenOutside(
            line=str(line.pk),
            title=line.title,
            terms=OutsideTerms(
                row.cost, row.markup, row.handling, line.tax_class, row.rounds or 1 if row.per_round else 1
            ),
            work=Planned(
                code=f"{CODE}{line.pk}",
                title=say("outside.by", title=line.title, firm=row.firm.name),
                firm=row.firm.name,
                days=row.days,
                starts_after=row.starts_after,
                needed_by=row.needed_by,
            ),
            they_need=row.they_need,
            warranty=row.warranty,
            details=OutsideDetails(row.they_do, row.reference, row.we_warrant, row.rounds, row.per_round),
            returnable=line.returnable,
        )


def works_of(shop: Shop, revision: Revision) -> dict[object, OutsideWork]:
    """{line id: outside work} of a revision."""
    rows = OutsideWork.objects.filter(shop=shop, revision=revision).select_related("firm")
    return {row.line_id: row for row in rows}


def firm_contacts(shop: Shop, codes: Iterable[str]) -> Mapping[str, str]:
    """Maps outside work, by its code in a plan, to the contact of its firm as recorded today. One query."""
    names = {code.removeprefix(CODE) for code in codes if code.startswith(CODE)}
    rows = OutsideWork.objects.filter(shop=shop, line__in=filter(None, map(_line_id, names)))
    return {f"{CODE}{line}": contact for line, contact in rows.values_list("line", "firm__contact")}


def _line_id(name: str) -> UUID | None:
    """The id of the line in a code of outside work; None for any other code."""
    try:
        return UUID(name)
    except ValueError:
        return None
