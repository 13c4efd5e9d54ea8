"""Uploaded files: read and shown first, then imported completely or not at all."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import Count, QuerySet, Sum
from django.db.models.functions import Length
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError
from shop.models import FileRead, Shop
from shop.rows import uuid7
from shop.services import feed, history
from shop.services.retention import purged_after
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, read
from shop.tables.findings import MUST_FIX, Finding
from shop.tables.import_result import lines_of, result_of
from shop.tables.parsed import Memory, Progress, unwatched
from shop.tables.registry import kinds
from shop.tables.repairs import NO_REPAIRS, folded_steps, remembered, to_remember

TYPED = frozenset(
    {"kit_without_code", "slip_without_order", "slip_without_day"}
)  # what a person can type beside the file, so that the rest is worth checking
KEPT = timedelta(days=14)  # how long a file waits for somebody to import it
MOST_WAITING = 40
MOST_STEPS = 2_000
MOST_BYTES_WAITING = 50 * 1024 * 1024


def understand(
    *,
    actor: Actor,
    kind: FileKind,
    file_name: str,
    body: bytes,
    supplier: str = "",
    mapping: Mapping[str, str] | None = None,
    steps: Iterable[Mapping[str, Any]] = (),
    progress: Progress = unwatched,
) -> ParsedFile:
    """The file as read, with the columns and answers of the supplier's last file if none are given. Writes nothing."""
    repairs = folded_steps(steps)
    supplier = repairs.fields.get("supplier", "") or supplier
    if supplier and kind.remembered is not None:
        memory = kind.remembered(actor, supplier)
        repairs = folded_steps(steps, remembered(memory.repairs))
        if not mapping and memory.columns:
            reading = read(kind, file_name, body, memory.columns, repairs, progress)
            if not any(finding.code == "mapping_heading_unknown" for finding in reading.findings):
                return _with_supplier(reading, supplier)
    return _with_supplier(read(kind, file_name, body, mapping, repairs, progress), supplier)


def _with_supplier(reading: ParsedFile, supplier: str) -> ParsedFile:
    """The reading, with the supplier that the person named if the file names none."""
    if not supplier or "supplier" in reading.title:
        return reading
    return replace(reading, title={**reading.title, "supplier": supplier})


@dataclass(frozen=True, slots=True)
class ImportOutcome:
    """The rows that a file plans, their effect on the shop with all findings, and both in words.

    Planning and wording many thousand rows takes seconds: do it before the transaction that stores them.
    """

    plan: ImportPreview | None
    planned: ImportPreview
    findings: tuple[Finding, ...]
    result: dict[str, Any]
    lines: list[dict[str, Any]]


def outcome_of(
    *, actor: Actor, file: FileRead, reading: ParsedFile, before: ImportOutcome | None = None
) -> ImportOutcome:
    """Compares the reading with the shop as it is now. `before` is an earlier outcome of it.

    Nothing is planned again, and nothing is worded again unless a change in the shop changes the findings.
    """
    kind = kinds()[file.kind]
    plan = before.plan if before else _plan(kind, reading)
    planned, findings = look(actor=actor, kind=kind, reading=reading, plan=plan)
    if before and (planned, findings) == (before.planned, before.findings):
        return before
    result, lines = result_of(kind, reading, planned, findings), lines_of(kind, reading, planned, findings)
    return ImportOutcome(plan, planned, findings, result, lines)


def look(
    *, actor: Actor, kind: FileKind, reading: ParsedFile, plan: ImportPreview | None = None
) -> tuple[ImportPreview, tuple[Finding, ...]]:
    """The effect of an import, and all findings: on the file itself and on its comparison with the shop.

    A file without a readable row has only the findings on why. `plan` is the kind's if it was made before.
    """
    planned = plan or _plan(kind, reading)
    if planned is None:
        return ImportPreview(None), reading.findings
    unread = _must_fix(reading.findings)
    own = (*reading.findings, *planned.findings)
    if not reading.rows or any(not finding.row and finding.code not in TYPED for finding in unread):
        return planned, own
    checked = kind.check(actor, planned.plan)
    wrong = _must_fix(own)
    if not wrong:
        return checked, (*own, *checked.findings)
    return planned, (*own, *_independent(checked.findings, wrong))


def _plan(kind: FileKind, reading: ParsedFile) -> ImportPreview | None:
    """The rows that the file plans; None if it could not be read."""
    unread = _must_fix(reading.findings)
    if unread and not reading.rows and not any(finding.code == "column_missing" for finding in unread):
        return None
    return kind.plan(reading)


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
    steps: Iterable[Mapping[str, Any]] = (),
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
        repairs=[{**step, "id": str(uuid7())} for step in steps],
        result=result_of(kind, reading, planned, findings),
        lines=lines_of(kind, reading, planned, findings),
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
    _delete(waiting.filter(read_at__lt=now - KEPT))
    stored = waiting.aggregate(files=Count("pk"), bytes=Sum(Length("body")))
    if stored["files"] >= MOST_WAITING or (stored["bytes"] or 0) + size > MOST_BYTES_WAITING:
        megabytes = MOST_BYTES_WAITING >> 20
        raise RequestError(409, "import-no-room", n=stored["files"], megabytes=megabytes, days=KEPT.days)


@transaction.atomic
def remove(*, actor: Actor, file: FileRead) -> None:
    """Removes a file that nobody will import. An imported file stays in the list."""
    if not _delete(FileRead.objects.filter(shop=actor.shop, pk=file.pk, state=FileRead.State.READ)):
        raise RequestError(409, "import-taken-already")


@purged_after(lambda rules: rules.import_months)
@transaction.atomic
def drop_bytes(shop: Shop, before: datetime) -> int:
    """Removes the bytes of files that were imported before this instant; their number. What they became stays."""
    rows = FileRead.objects.filter(shop=shop, state=FileRead.State.TAKEN, taken_at__lt=before, dropped_at__isnull=True)
    return rows.update(body=b"", dropped_at=timezone.now())


def _delete(files: QuerySet[FileRead]) -> int:
    """Deletes files and returns their number. They are locked first: one that is being imported is left."""
    locked = list(files.select_for_update().values_list("pk", flat=True))
    FileRead.objects.filter(pk__in=locked).delete()
    return len(locked)


def read_again(*, actor: Actor, file: FileRead, progress: Progress = unwatched) -> ParsedFile:
    """Reads the stored file. Takes up to seconds, so call it before the transaction that imports the file."""
    return read_with(actor=actor, file=file, steps=file.repairs, progress=progress)


@transaction.atomic
def take_in(
    *, actor: Actor, file: FileRead, reading: ParsedFile, day: date | None = None, before: ImportOutcome | None = None
) -> FileRead:
    """Imports the file completely or not at all: compares `reading` with the shop as it is now and writes it.

    `before` is the outcome of `reading` from before the transaction.
    """
    row = locked(file)
    kind = kinds()[row.kind]
    outcome = outcome_of(actor=actor, file=row, reading=reading, before=before)
    row.result, row.lines = outcome.result, outcome.lines
    refuse_unready(row.result)
    written = kind.write(actor, outcome.planned.plan, day or timezone.localdate(timezone=ZoneInfo(actor.shop.zone)))
    if kind.keep_file is not None:
        row.result |= {"made": str(kind.keep_file(written, row))}
    _remember(actor, kind, row, reading)
    row.state, row.taken_at = FileRead.State.TAKEN, timezone.now()
    row.save(update_fields=["state", "taken_at", "result", "lines"])
    history.record(actor=actor, verb="imported", row=row)
    feed.record(actor=actor, kind=feed.Kind.IMPORTS)
    return row


def refuse_unready(result: Mapping[str, Any]) -> None:
    """Refuses with 409 to import a file while something in it must be fixed or answered."""
    unanswered = sum(question["value"] is None for question in result["questions"])
    if wrong := result["counts"][MUST_FIX] + unanswered:
        raise RequestError(409, "import-not-yet", n=wrong)


def locked(file: FileRead) -> FileRead:
    """The file's row, locked. 404 if it was removed since `file` was read, 409 if it was imported or corrected."""
    row = FileRead.objects.select_for_update().filter(pk=file.pk).first()
    if row is None:  # removed while it was read again
        raise RequestError(404, "not-found")
    if row.state == FileRead.State.TAKEN:
        raise RequestError(409, "import-taken-already")
    if row.repairs != file.repairs:
        raise RequestError(409, "import-changed-by-another")
    return row


def _remember(actor: Actor, kind: FileKind, row: FileRead, reading: ParsedFile) -> None:
    """Stores how the file was read, for the supplier's next one."""
    repairs = folded_steps(row.repairs)
    supplier = repairs.fields.get("supplier", "") or row.supplier or str(reading.title.get("supplier", ""))
    if kind.remember is None or not supplier or not (row.mapping or row.repairs):
        return
    before = remembered(kind.remembered(actor, supplier).repairs) if kind.remembered else NO_REPAIRS
    repairs = folded_steps(row.repairs, before)
    gone = [line.text for line in reading.left_out if line.why == "by_you"]
    kind.remember(actor, supplier, Memory(row.mapping, to_remember(repairs, reading.originals, gone)))


@transaction.atomic
def repair(*, actor: Actor, file: FileRead, steps: list[dict[str, Any]], outcome: ImportOutcome) -> FileRead:
    """Stores the steps that a person took with a file, and what it becomes with them. Imports nothing.

    409 if somebody changed the file since `file` was read, or imported it.
    """
    row = locked(file)
    row.repairs, row.result, row.lines = steps, outcome.result, outcome.lines
    row.save(update_fields=["repairs", "result", "lines"])
    feed.record(actor=actor, kind=feed.Kind.IMPORTS)
    return row


def for_all_with_its_problem(file: FileRead, step: Mapping[str, Any]) -> dict[str, Any]:
    """The step with the rows of its sheet that have its problem, besides its own; unchanged if it names no problem."""
    step = dict(step)
    if problem := step.pop("problem", ""):
        alike = [
            line["row"]
            for line in file.lines
            if line["sheet"] == step["sheet"] and any(r.get("problem") == problem for r in line["findings"])
        ]
        step["rows"] = sorted({*step["rows"], *alike})
    return step


def with_step(file: FileRead, step: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The steps of the file and one more, with an id of its own."""
    if len(file.repairs) >= MOST_STEPS:
        raise RequestError(409, "import-too-many-steps", n=MOST_STEPS)
    return [*file.repairs, {**step, "id": str(uuid7())}]


def without_step(file: FileRead, id: UUID) -> list[dict[str, Any]]:
    """The steps of the file without one of them. 404 if it is not there."""
    steps = [step for step in file.repairs if step["id"] != str(id)]
    if len(steps) == len(file.repairs):
        raise RequestError(404, "not-found")
    return steps


def read_with(
    *, actor: Actor, file: FileRead, steps: Iterable[Mapping[str, Any]], progress: Progress = unwatched
) -> ParsedFile:
    """Reads the stored file with these steps instead of its own."""
    return understand(
        actor=actor,
        kind=kinds()[file.kind],
        file_name=file.file_name,
        body=bytes(file.body),
        supplier=file.supplier,
        mapping=file.mapping,
        steps=steps,
        progress=progress,
    )
