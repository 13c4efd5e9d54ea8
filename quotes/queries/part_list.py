"""Finds the parts of a pasted list by their numbers and by the codes that a scanner reads, in two queries."""

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from kitting.models import Code, Part
from kitting.queries.supersessions import newest_parts
from quotes.calc.part_list import ListedPart, TextLine, read_part_list
from shop.calc.keys import search_key
from shop.models import Shop


@dataclass(frozen=True, slots=True)
class PartList:
    """The lines as they were understood, and the parts that they name by id, each replaced part by its successor."""

    lines: tuple[ListedPart, ...]
    parts: dict[str, Part]

    @property
    def understood(self) -> tuple[ListedPart, ...]:
        return tuple(line for line in self.lines if line.reading == "understood")

    @property
    def problems(self) -> tuple[ListedPart, ...]:
        return tuple(line for line in self.lines if line.reading in ("unknown", "no_quantity"))

    @property
    def unknown_number(self) -> str:
        """That of a list of one line, as a person types or scans it; empty if it is known or there are more lines."""
        only = self.lines[0] if len(self.lines) == 1 else None
        return only.number if only and only.reading == "unknown" else ""


def find_parts(shop: Shop, lines: Iterable[TextLine]) -> PartList:
    """The list with the parts of the shop."""
    texts = {text for line in lines for text in line.candidates}
    parts, by_key = _parts(shop, texts)
    return PartList(read_part_list(lines, by_key), parts)


def _parts(shop: Shop, texts: set[str]) -> tuple[dict[str, Part], dict[str, str]]:
    """(the parts by id, {search key of a number or a code: id of its part})."""
    keys = {search_key(text) for text in texts}
    codes = {code for text in texts for code in (text, text.zfill(14))}
    rows = {row.number_key: row for row in _read(shop, number_key__in=keys)}
    scanned = Code.objects.filter(shop=shop, code__in=codes).values_list("code", "part")
    of_code = {search_key(code.lstrip("0")): part for code, part in scanned}
    of_code |= {search_key(code): part for code, part in scanned}
    found_by_code: dict[UUID, Part] = {row.pk: row for row in _read(shop, pk__in=of_code.values())} if of_code else {}
    by_key = {key: found_by_code[part] for key, part in of_code.items()} | rows
    replaced = newest_parts(shop, by_key.values())
    newest = {key: replaced[part.pk] for key, part in by_key.items()}
    return {str(part.pk): part for part in newest.values()}, {key: str(part.pk) for key, part in newest.items()}


def _read(shop: Shop, **which: object) -> Iterable[Part]:
    return Part.objects.filter(shop=shop, **which)
