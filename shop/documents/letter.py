"""An e-mail: its paragraphs as plain text and as HTML, and the message of an outbox row.

Nothing in it is loaded from anywhere, so that reading it tells nobody anything.
"""

from dataclasses import dataclass
from email.utils import formataddr

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.template.loader import render_to_string

from shop.models import Outbox
from shop.typed import person_name
from shop.words.languages import language


@dataclass(frozen=True, slots=True)
class Letter:
    """`button` and `address` are the words and the target of its one link, empty where it has none."""

    subject: str
    before: tuple[str, ...]
    signature: tuple[str, ...]
    button: str = ""
    address: str = ""
    after: tuple[str, ...] = ()

    def text(self) -> str:
        link = (f"{self.button}:\n{self.address}",) if self.address else ()
        return "\n\n".join((*self.before, *link, *self.after, "\n".join(self.signature))) + "\n"

    def html(self) -> str:
        return render_to_string("print/letter.html", {"letter": self, "language": language()})


def message(row: Outbox, letter: Letter, *, to: str) -> EmailMultiAlternatives:
    """The message of a row. Its Message-ID is the row's, so that a reader's mailbox can join two copies."""
    shop, address = row.shop, settings.MAIL_FROM
    written = EmailMultiAlternatives(
        subject=" ".join(letter.subject.split()),
        body=letter.text(),
        from_email=formataddr((person_name(shop.name), address)),
        to=[to],
        reply_to=[shop.email] if shop.email else None,
        headers={"Message-ID": f"<{row.pk}@{address.rpartition('@')[2]}>", "Auto-Submitted": "auto-generated"},
    )
    written.attach_alternative(letter.html(), "text/html")
    return written
