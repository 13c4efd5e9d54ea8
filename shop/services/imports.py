"""Uploaded files: read and shown first, then imported completely or not at all."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import Count, Sum
from django.db.models.functions import Length
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError
from shop.models import FileRead
from shop.services import feed, history
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, read, shown_findings
from shop.tables.findings import MUST_FIX, WEIGHTS, Finding
from shop.tables.registry import kinds
from shop.tables.wording import becomes, field_words, remedy, sentence
from shop.words import say

KEPT = timedelta(days=14)  # how long a file waits for somebody to import it
MOST_WAITING = 40
MOST_BYTES_WAITING = 50 * 1024 * 1024


def understand(
    *,
    actor: Actor,
    kind: FileKind,
    file_name: str,
    body: bytes,
    supplier: str = "",
    mapping: Mapping[str, str] | None = None,
) -> ParsedFile:
    """The file as read, with the columns of the supplier's last file if none are given. Writes nothing."""
    if not mapping and supplier and kind.remembered is not None:
        remembered = kind.remembered(actor, supplier)
        reading = read(kind, file_name, body, remembered)
        if not any(finding.code == "mapping_heading_unknown" for finding in reading.findings):
            return _with_supplier(reading, supplier)
    return _with_supplier(read(kind, file_name, body, mapping), supplier)


def _with_supplier(reading: ParsedFile, supplier: str) -> ParsedFile:
    """The reading, with the supplier that the person named if the file names none."""
    if not supplier or "supplier" in reading.title:
        return reading
    return replace(reading, title={**reading.title, "supplier": supplier})


def look(*, actor: Actor, kind: FileKind, reading: ParsedFile) -> tuple[ImportPreview, tuple[Finding, ...]]:
    """The effect of an import, and all findings, worst first: on the file itself and on its comparison with the shop.

    A file without a readable row has only the findings on why.
    """
    unread = _must_fix(reading.findings)
    if unread and not reading.rows and not any(finding.code == "column_missing" for finding in unread):
        return ImportPreview(None), shown_findings(reading.findings)
    planned = kind.plan(reading)
    own = (*reading.findings, *planned.findings)
    if not reading.rows or any(not finding.row for finding in unread):
        return planned, shown_findings(own)
    checked = kind.check(actor, planned.plan)
    wrong = _must_fix(own)
    if not wrong:
        return checked, shown_findings(own, checked.findings)
    return planned, shown_findings(own, tuple(_independent(checked.findings, wrong)))


def _must_fix(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.weight == MUST_FIX)


def _independent(findings: Iterable[Finding], wrong: Iterable[Finding]) -> Iterator[Finding]:
    """The findings against the shop that do not follow from a cell that could not be read.

    Of a row with such a cell, only hints about its other cells remain.
    """
    cells = {(finding.sheet, finding.cell) for finding in wrong if finding.cell}
    rows = {(finding.sheet, finding.row) for finding in wrong if finding.row}
    for finding in findings:
        hint = finding.weight != MUST_FIX and (finding.sheet, finding.cell) not in cells
        if hint or (finding.sheet, finding.row) not in rows:
            yield finding


@transaction.atomic
def keep(
    *,
    actor: Actor,
    kind: FileKind,
    reading: ParsedFile,
    body: bytes,
    supplier: str = "",
    mapping: Mapping[str, str] | None = None,
) -> FileRead:
    """Stores the file with its findings, for somebody to look at. Imports nothing.

    409 when the shop has too many files waiting.
    """
    make_room(actor=actor, size=len(body), now=timezone.now())
    planned, findings = look(actor=actor, kind=kind, reading=reading)
    row = FileRead(
        shop=actor.shop,
        kind=kind.name,
        file_name=reading.name[:200],
        body=body,
        supplier=supplier,
        mapping=dict(mapping or {}),
        result=result_of(kind, reading, planned, findings),
        author=actor.member,
        read_at=timezone.now(),
    )
    row.clean_fields()
    row.save(force_insert=True)
    feed.record(actor=actor, kind=feed.Kind.IMPORTS)
    return row


def make_room(*, actor: Actor, size: int, now: datetime) -> None:
    """Removes files that nobody imported for KEPT, then refuses one more than the shop may keep waiting."""
    waiting = FileRead.objects.filter(shop=actor.shop, state=FileRead.State.READ)
    waiting.filter(read_at__lt=now - KEPT).delete()
    stored = waiting.aggregate(files=Count("pk"), bytes=Sum(Length("body")))
    if stored["files"] >= MOST_WAITING or (stored["bytes"] or 0) + size > MOST_BYTES_WAITING:
        why = say("import.no_room", n=stored["files"], megabytes=MOST_BYTES_WAITING >> 20, days=KEPT.days)
        raise RequestError(409, "refused", why=why)


def remove(*, actor: Actor, file: FileRead) -> None:
    """Removes a file that nobody will import. An imported file stays in the list."""
    gone, _ = FileRead.objects.filter(shop=actor.shop, pk=file.pk, state=FileRead.State.READ).delete()
    if not gone:
        raise RequestError(409, "refused", why=say("import.taken_already"))


def read_again(*, actor: Actor, file: FileRead) -> ParsedFile:
    """Reads the stored file. Takes up to seconds, so call it before the transaction that imports the file."""
    return understand(
        actor=actor,
        kind=kinds()[file.kind],
        file_name=file.file_name,
        body=bytes(file.body),
        supplier=file.supplier,
        mapping=file.mapping,
    )


@transaction.atomic
def take_in(*, actor: Actor, file: FileRead, reading: ParsedFile, day: date | None = None) -> FileRead:
    """Imports the file completely or not at all: compares `reading` with the shop as it is now and writes it."""
    row = FileRead.objects.select_for_update().filter(pk=file.pk).first()
    if row is None:  # removed while it was read again
        raise RequestError(404, "not-found")
    if row.state == FileRead.State.TAKEN:
        raise RequestError(409, "refused", why=say("import.taken_already"))
    kind = kinds()[row.kind]
    planned, findings = look(actor=actor, kind=kind, reading=reading)
    row.result = result_of(kind, reading, planned, findings)
    wrong = row.result["counts"][MUST_FIX]
    if wrong:
        raise RequestError(409, "refused", why=say("import.not_yet", n=wrong))
    kind.write(actor, planned.plan, day or timezone.localdate(timezone=ZoneInfo(actor.shop.zone)))
    if row.supplier and row.mapping and kind.remember is not None:
        kind.remember(actor, row.supplier, row.mapping)
    row.state, row.taken_at = FileRead.State.TAKEN, timezone.now()
    row.body = b""  # the rows that it became are kept, and their history
    row.save(update_fields=["state", "taken_at", "result", "body"])
    history.record(actor=actor, verb="imported", row=row)
    feed.record(actor=actor, kind=feed.Kind.IMPORTS)
    return row


def result_of(
    kind: FileKind, reading: ParsedFile, planned: ImportPreview, findings: tuple[Finding, ...]
) -> dict[str, Any]:
    """The result of reading a file as JSON, in words, as screens show it."""
    bad = {(finding.sheet, finding.row) for finding in findings if finding.weight == MUST_FIX}
    good = sum((row.sheet, row.number) not in bad for row in reading.rows)
    lines = [becomes(rows) for rows in planned.becomes]
    return {
        "becomes": {"title": lines[0] if lines else say("import.becomes.nothing"), "words": lines[1:]},
        "rows": len(reading.rows),
        "good": good,
        "skipped": reading.skipped,
        **_columns(kind, reading),
        "findings": [_finding_row(finding) for finding in findings],
        "counts": {weight: _count(findings, weight) for weight in WEIGHTS},
        "can_take_in": not _count(findings, MUST_FIX),
    }


def _columns(kind: FileKind, reading: ParsedFile) -> dict[str, Any]:
    headings = [
        {"sheet": sheet, "column": column.letters, "heading": column.heading, "field": column.field}
        for sheet, heading in reading.headings
        for column in heading.columns
    ]
    fields = {
        item.name: {"field": item.name, "words": field_words(item.name), "required": item.required}
        for table in kind.tables
        for item in table.fields
    }
    return {
        "columns": [item for item in headings if item["field"]],
        "headings": [{name: item[name] for name in ("sheet", "column", "heading")} for item in headings],
        "fields": list(fields.values()),
    }


def _finding_row(finding: Finding) -> dict[str, Any]:
    return {
        "sheet": finding.sheet,
        "row": finding.row or None,
        "column": finding.column,
        "cell": finding.cell,
        "weight": finding.weight,
        "words": sentence(finding),
        "remedy": remedy(finding),
        "says": finding.says,
    }


def _count(findings: tuple[Finding, ...], weight: str) -> int:
    return sum(1 + int(dict(finding.facts).get("more", 0)) for finding in findings if finding.weight == weight)
