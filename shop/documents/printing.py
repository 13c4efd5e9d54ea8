"""A cache of printed papers, by the digest of everything that is printed.

Printing takes seconds and the HTML milliseconds, so the HTML itself is the key: no list of dependencies can be wrong.
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
    """The PDF of this HTML: from `folder` of the storage if it was printed before, else printed and stored there.

    `folder` belongs to one paper of one row in one language; an earlier print in it is deleted.
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
    """The stored paper; None if it is missing or not completely written."""
    if not default_storage.exists(name):
        return None
    with suppress(OSError), default_storage.open(name) as file:  # deleted in the meantime by a newer print
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
