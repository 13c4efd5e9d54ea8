"""Papers that are printed once for each state of what they show.

A print takes seconds, its HTML milliseconds: the state is what would be printed, so nothing has to be named twice.
"""

import hashlib
from contextlib import suppress
from datetime import datetime

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from shop.documents import pdf

END = b"%%EOF"


def printed_once(
    html: str, *, folder: str, title: str, made_at: datetime, attachment: bytes, attachment_name: str
) -> bytes:
    """The PDF of this HTML: read from `folder` of the storage where it was printed before, else printed and kept there.

    `folder` belongs to one paper of one thing, in one language: an earlier state in it is thrown away.
    """
    name = f"{folder}/{_state(html, title, made_at, attachment, attachment_name)}.pdf"
    stored = _stored(name)
    if stored is not None:
        return stored
    printed = pdf.render(html, title=title, made_at=made_at, attachment=attachment, attachment_name=attachment_name)
    _replace(folder, name, printed)
    return printed


def _state(html: str, title: str, made_at: datetime, attachment: bytes, attachment_name: str) -> str:
    parts = (html, pdf.STYLE.read_text("utf-8"), title, made_at.isoformat(), attachment_name)
    return hashlib.sha256("\0".join(parts).encode() + b"\0" + attachment).hexdigest()


def _stored(name: str) -> bytes | None:
    """The paper of that name; None where its writing was cut off or is still going on."""
    if not default_storage.exists(name):
        return None
    with suppress(OSError), default_storage.open(name) as file:  # thrown away since, by a newer state
        body = bytes(file.read())
        return body if body.rstrip().endswith(END) else None
    return None


def _replace(folder: str, name: str, body: bytes) -> None:
    for other in _files(folder):
        with suppress(OSError):
            default_storage.delete(f"{folder}/{other}")
    default_storage.save(name, ContentFile(body))


def _files(folder: str) -> list[str]:
    with suppress(OSError):
        return list(default_storage.listdir(folder)[1])
    return []
