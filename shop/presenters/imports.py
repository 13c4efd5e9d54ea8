"""Imported files as answers, from the result stored when they were read."""

from collections.abc import Iterable

from msgspec.structs import asdict, replace

from shop.answers.base import from_kept, utc, utc_or_none
from shop.answers.imports import FileOut, FileTaskOut, ImportLineOut, ImportLinesOut, ImportOut, ImportRowOut
from shop.models import FileRead, FileTask
from shop.models.files import FileState, FileTaskKind, FileTaskState
from shop.queries.imported import taker_of
from shop.words import say

MOST_LINES = 500
NO_LIST: dict[str, object] = {"questions": [], "typed": [], "places": [], "left_out": [], "left_out_counts": []}
UNREAD: dict[str, object] = NO_LIST | {
    "rows": 0,
    "good": 0,
    "skipped": 0,
    "columns": [],
    "headings": [],
    "fields": [],
    "findings": [],
    "counts": {"must_fix": 0, "please_check": 0, "done_for_you": 0},
    "can_take_in": False,
}
NO_STEP: dict[str, object] = {"sheet": "", "rows": [], "field": "", "text": "", "question": "", "carton": "", "bag": ""}


def import_row(row: FileRead) -> ImportRowOut:
    becomes, counts = row.result.get("becomes"), row.result.get("counts")
    title = becomes["title"] if becomes else say("import.unread")
    return ImportRowOut(**asdict(_file(row)), title=title, must_fix=counts["must_fix"] if counts else 0)


def import_answer(row: FileRead, tasks: Iterable[FileTask] | None = None) -> ImportOut:
    """The file with its result. A file that an earlier version read has no list, and one not yet read no result.

    `tasks`: as they were read before the row.
    """
    file = _file(row, tasks)
    steps = [{**NO_STEP, **step} for step in row.repairs]
    result = row.result or UNREAD | {"becomes": {"title": say("import.unread"), "words": []}}
    details = {"steps": steps, "task": None, "taken_by": taker_of(row)}
    answer = from_kept(NO_LIST | {"made": None} | asdict(file) | result | details, ImportOut)
    return replace(answer, task=file.task)


def import_lines(row: FileRead, place: int | None) -> ImportLinesOut:
    """The lines of one place, or of the whole list; at most MOST_LINES of them, those with remarks before others."""
    lines = [line for line in row.lines if place is None or line["place"] == place]
    first = sorted(range(len(lines)), key=lambda n: not lines[n]["findings"])[:MOST_LINES]
    return ImportLinesOut(lines=[from_kept(lines[n], ImportLineOut) for n in sorted(first)], all=len(lines))


def _file(row: FileRead, tasks: Iterable[FileTask] | None = None) -> FileOut:
    return FileOut(
        id=row.pk,
        kind=row.kind,
        file_name=row.file_name,
        supplier=row.supplier,
        state=FileState(row.state),
        by=row.author.user.name if row.author else None,
        read_at=utc(row.read_at),
        taken_at=utc_or_none(row.taken_at),
        task=next((_task(task) for task in (row.tasks.all() if tasks is None else tasks)), None),
    )


def _task(task: FileTask) -> FileTaskOut:
    return FileTaskOut(
        kind=FileTaskKind(task.kind),
        state=FileTaskState(task.state),
        rows_done=task.rows_done,
        rows_in_all=task.rows_in_all,
        asked_at=utc(task.asked_at),
        reason=task.reason,
    )
