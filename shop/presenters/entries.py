"""Refused entries as refusals, each finding at its field."""

from collections.abc import Iterator
from contextlib import contextmanager

from shop.errors import FieldError, RequestError
from shop.queries.entries import EntryError
from shop.tables.findings import Finding
from shop.tables.wording import at_a_field


@contextmanager
def refusals_worded(rows: str = "steps") -> Iterator[None]:
    """Raises the refusal of an entry that is refused inside, worded at its fields. `rows` names the request's list."""
    try:
        yield
    except EntryError as error:
        fields = tuple(FieldError(_pointer(rows, finding), words=at_a_field(finding)) for finding in error.findings)
        raise RequestError(400, "invalid", fields) from None


def _pointer(rows: str, finding: Finding) -> str:
    """The JSON pointer of the field; rows are counted from 1."""
    return f"/{rows}/{finding.row - 1}/{finding.field}" if finding.row else f"/{finding.field}"
