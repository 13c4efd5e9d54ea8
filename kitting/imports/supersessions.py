"""Older and newer numbers of parts that a kit's file names, and the chain of parts that they make."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from kitting.calc.supersessions import leads_to
from kitting.imports.buying import ImportedPart, write_parts
from kitting.imports.kit_plan import ImportedKitLine
from kitting.models import Part
from kitting.queries.supersessions import lock_replaced_numbers, newer_keys
from shop.access import Actor
from shop.errors import RequestError
from shop.services import bulk
from shop.tables.findings import MUST_FIX, Finding, must_fix, please_check


@dataclass(frozen=True, slots=True)
class ImportedSupersession:
    """A part whose number another one replaces, as a line states it."""

    old: ImportedPart
    new: ImportedPart
    at: Finding


def supersessions_of(lines: Iterable[ImportedKitLine]) -> Iterator[ImportedSupersession]:
    """The supersessions that the lines state. A number without a line of its own is called as the line is."""
    for line in lines:
        for name, number in (("replaces", line.replaces), ("replaced_by", line.replaced_by)):
            other = ImportedPart(number, line.part.title, line.part.unit)
            if not number or other.key == line.part.key:
                continue
            old, new = (other, line.part) if name == "replaces" else (line.part, other)
            yield ImportedSupersession(old, new, line.row.at(name))


def supersession_findings(actor: Actor, lines: Iterable[ImportedKitLine]) -> list[Finding]:
    """Refuses a chain that leads back to its beginning, and asks about a part that is replaced already."""
    newer = newer_keys(actor.shop)
    findings = []
    for pair in supersessions_of(lines):
        before = newer.setdefault(pair.old.key, pair.new.key)
        if before != pair.new.key:
            findings.append(please_check("superseded_by_another", pair.at, what=pair.old.number))
        elif leads_to(pair.new.key, pair.old.key, newer):
            findings.append(must_fix("supersession_in_a_circle", pair.at, old=pair.old.number, new=pair.new.number))
    return findings


def lock_supersessions(actor: Actor, lines: Iterable[ImportedKitLine]) -> None:
    """Locks the replaced numbers of the shop if a line states one. Refuses a circle that was closed since the check."""
    lines = tuple(lines)
    if not any(supersessions_of(lines)):
        return
    lock_replaced_numbers(actor)
    if wrong := [finding for finding in supersession_findings(actor, lines) if finding.weight == MUST_FIX]:
        raise RequestError(409, "import-not-yet", n=len(wrong))


def write_supersessions(actor: Actor, lines: Iterable[ImportedKitLine]) -> None:
    """Adds the parts that only a supersession names, and links each old part to its newer number. A part that is
    replaced already stays as it is.
    """
    pairs = list(supersessions_of(lines))
    if not pairs:
        return
    parts = write_parts(actor, [part for pair in pairs for part in (pair.old, pair.new)])
    led: dict[str, Part] = {}
    for pair in pairs:
        old = parts[pair.old.key]
        if old.superseded_by_id is None:
            old.superseded_by = parts[pair.new.key]
            led[old.number_key] = old
    bulk.update([*led.values()], ["superseded_by"])
