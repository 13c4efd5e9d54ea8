from collections.abc import Iterator
from typing import Any

import pytest

from tests.smtp_server import SmtpServer, smtp_server


@pytest.fixture
def server(settings: Any) -> Iterator[SmtpServer]:
    """A mail server that the settings name, without encryption."""
    with smtp_server() as running:
        settings.EMAIL_BACKEND, settings.EMAIL_HOST, settings.EMAIL_PORT = (
            "shop.outbox.smtp.Backend",
            "127.0.0.1",
            running.port,
        )
        settings.EMAIL_USE_TLS = settings.EMAIL_USE_SSL = False
        settings.MAIL_IS_SENT = True
        settings.MAIL_FROM = "quotes@workshop.example"
        yield running
