"""Imported files as answers, from the result stored when they were read."""

from msgspec.structs import asdict

from shop.answers.base import from_kept, utc, utc_or_none
from shop.answers.imports import FileOut, ImportLineOut, ImportLinesOut, ImportOut, ImportRowOut
from shop.models import FileRead
from shop.models.files import FileState

MOST_LINES = 500
NO_LIST: dict[str, object] = {"questions": [], "typed": [], "places": [], "left_out": [], "left_out_counts": []}
NO_STEP: dict[str, object] = {"sheet": "", "rows": [], "field": "", "text": "", "question": "", "carton": "", "bag": ""}


def import_row(row: FileRead) -> ImportRowOut:
    becomes, counts = row.result["becomes"], row.result["counts"]
    return ImportRowOut(**asdict(_file(row)), title=becomes["title"], must_fix=counts["must_fix"])


def import_answer(row: FileRead) -> ImportOut:
    """The file with its result. A file that an earlier version read has no list."""
    steps = [{**NO_STEP, **step} for step in row.repairs]
    return from_kept(NO_LIST | asdict(_file(row)) | row.result | {"steps": steps}, ImportOut)


def import_lines(row: FileRead, place: int | None) -> ImportLinesOut:
    """The lines of one place, or of the whole list; at most MOST_LINES of them, those with remarks before others."""
    lines = [line for line in row.lines if place is None or line["place"] == place]
    first = sorted(range(len(lines)), key=lambda n: not lines[n]["findings"])[:MOST_LINES]
    return ImportLinesOut(lines=[from_kept(lines[n], ImportLineOut) for n in sorted(first)], all=len(lines))


def _file(row: FileRead) -> FileOut:
    return FileOut(
        id=row.pk,
        kind=row.kind,
        file_name=row.file_name,
        supplier=row.supplier,
        state=FileState(row.state),
        by=row.author.user.name if row.author else None,
        read_at=utc(row.read_at),
        taken_at=utc_or_none(row.taken_at),
    )
