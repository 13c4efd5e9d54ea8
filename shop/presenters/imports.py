"""Imported files as answers, from the result stored when they were read."""

from msgspec.structs import asdict

from shop.answers.base import from_kept, utc, utc_or_none
from shop.answers.imports import FileOut, ImportOut, ImportRowOut
from shop.models import FileRead
from shop.models.files import FileState


def import_row(row: FileRead) -> ImportRowOut:
    becomes, counts = row.result["becomes"], row.result["counts"]
    return ImportRowOut(**asdict(_file(row)), title=becomes["title"], must_fix=counts["must_fix"])


def import_answer(row: FileRead) -> ImportOut:
    return from_kept(asdict(_file(row)) | row.result, ImportOut)


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
