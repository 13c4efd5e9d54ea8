"""Django's SMTP backend, which also knows whether the server was given the text of a message."""

import smtplib
from typing import Any

from django.core.mail.backends.smtp import EmailBackend


class _NotesData:
    text_given = False

    def data(self, msg: Any) -> Any:
        self.text_given = True
        return super().data(msg)  # type: ignore[misc]


class _Plain(_NotesData, smtplib.SMTP):
    pass


class _Encrypted(_NotesData, smtplib.SMTP_SSL):
    pass


class Backend(EmailBackend):
    @property
    def connection_class(self) -> type[smtplib.SMTP]:
        return _Encrypted if self.use_ssl else _Plain

    @property
    def text_given(self) -> bool:
        return bool(getattr(self.connection, "text_given", False))
