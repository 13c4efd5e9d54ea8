"""Counts by hand that make the first list of a kit, which is written as an import would write it."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.utils import timezone

from kitting.calc.first_count import HandCountedLine
from kitting.models import FirstCount, Kit, KitRevision
from kitting.queries.first_counts import compared, counts_of, has_contents, newest_revision
from kitting.services.kits import keep_what_a_list_lacks
from shop.access import Actor
from shop.calc.quantity import plain
from shop.errors import RequestError
from shop.queries.calendar import shop_day
from shop.queries.entries import Entry, EntryError, read_entries
from shop.services import history
from shop.services.clean import clean

Texts = Mapping[str, str]  # carton, bag, number, quantity as they were typed
NONE = re.compile(r"0+(?:[.,]0+)?\s*\w*")
MOST_COUNTS = 50  # of one kit


@transaction.atomic
def add_count(*, actor: Actor, kit: Kit, lines: Sequence[Texts], whole: bool, again: bool = False) -> FirstCount:
    """Records a count, and writes the kit's list if two counts now agree on every line.

    `again` begins a new series, in which earlier counts do not matter. 409 once the kit has contents or is archived.
    """
    kit = Kit.objects.select_for_update().get(pk=kit.pk)
    if kit.archived:
        raise RequestError(409, "kit-archived", kit=kit.code)
    revision = newest_revision(kit)
    if has_contents(revision):
        raise RequestError(409, "kit-has-contents")
    before = FirstCount.objects.filter(shop=actor.shop, kit=kit).order_by("-number").first()
    if before and before.number >= MOST_COUNTS:
        raise RequestError(409, "too-many-first-counts", n=MOST_COUNTS)
    count = FirstCount(
        shop=actor.shop,
        kit=kit,
        number=before.number + 1 if before else 1,
        series=before.series + again if before else 1,
        whole=whole,
        lines=_read(actor, kit, revision, lines),
        author=actor.member,
        counted_at=timezone.now(),
    )
    clean([count])
    count.save(force_insert=True)
    history.record(actor=actor, verb="counted", row=count)
    _write_what_agrees(actor, kit, revision)
    return count


def _read(actor: Actor, kit: Kit, revision: KitRevision | None, lines: Sequence[Texts]) -> list[dict[str, str]]:
    """The lines as they are stored. Raises EntryError if a file with these lines would be refused."""
    positions = [at for at, line in enumerate(lines) if not _is_none(line)]
    stored = [dict(line) | {"quantity": "0", "unit": "pc"} for line in lines]
    if positions:
        entry = _entry(actor, kit, revision, [lines[at] for at in positions])
        if entry.refused:
            raise EntryError(tuple(_at_its_line(finding, positions) for finding in entry.refused))
        for at, line in zip(positions, entry.plan.lines, strict=True):
            stored[at] = {
                "carton": line.carton,
                "bag": line.bag,
                "number": line.part.number,
                "quantity": plain(line.quantity),
                "unit": line.part.unit,
            }
    return stored


def _at_its_line(finding: Any, positions: Sequence[int]) -> Any:
    return replace(finding, row=positions[finding.row - 1] + 1) if finding.row else finding


def _is_none(line: Texts) -> bool:
    return NONE.fullmatch(line["quantity"].strip()) is not None


def _write_what_agrees(actor: Actor, kit: Kit, revision: KitRevision | None) -> None:
    first = compared(counts_of(kit))
    if first.open or not first.lines:
        return
    entry = _entry(actor, kit, revision, [_texts(line) for line in first.lines])
    if entry.refused:
        raise EntryError(entry.refused)
    written = entry.kind.write(actor, entry.plan, shop_day(actor.shop, timezone.now()))
    if revision is not None:
        keep_what_a_list_lacks(revision, written)


def _texts(line: HandCountedLine) -> dict[str, str]:
    return {
        "carton": line.carton,
        "bag": line.bag,
        "number": line.number,
        "quantity": plain(line.quantity),
        "unit": line.unit,
    }


def _entry(actor: Actor, kit: Kit, revision: KitRevision | None, rows: Sequence[Texts]) -> Entry:
    """The lines as rows of a kit's file whose title block has the kit's recorded figures."""
    title: dict[str, str | Decimal] = {"kit": kit.code, "title": kit.title, "number": kit.part.number}
    if kit.part.preferred:
        title["supplier"] = kit.part.preferred.name
    if revision is not None:
        facts = {"labour": revision.labour and revision.labour.code, "price": revision.price, "hours": revision.hours}
        title |= {name: value for name, value in facts.items() if value is not None}
    return read_entries(actor=actor, kind="kit", table="lines", rows=rows, title=title)
