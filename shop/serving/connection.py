"""A connection of the server: the loop reads the request, and a thread gets it only when it is complete.

Our parser adds two rules to waitress: a body is refused by its address as soon as the headers are read, and a request
must arrive at a minimum rate. A refused body is discarded; the connection responds and closes.
"""

import contextlib
import socket
import time
from typing import Any

from django.conf import settings
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.utilities import Error

from shop.api.bearer import is_bearer
from shop.api.limits import Head, allowance, refusal

GRACE = 20  # seconds without a minimum rate
RATE = 8 * 1024  # minimum bytes per second after that
LARGE = 512 * 1024  # waitress buffers larger bodies on the disk
MOST_LARGE, MOST_LARGE_OF_A_CLIENT = 16, 6  # large bodies at once: whoever sends slowly keeps nobody else out
LINGER = 2  # seconds for which a refused client's data is discarded, so that it can read the response


def seconds() -> int:
    """Whole seconds of a monotonic clock."""
    return time.monotonic_ns() // 1_000_000_000


class ServerBusyError(Error):
    """Response 503 while too many large bodies are being received."""

    code = 503
    reason = "Service Unavailable"


class RequestParser(HTTPRequestParser):
    """Parses one request and enforces size and rate."""

    def __init__(self, channel: "ServerChannel", adj: Any) -> None:
        super().__init__(adj)
        self.channel = channel
        self.began = seconds()
        self.most = 0
        self.large = False
        self.client = ""

    def received(self, data: bytes) -> int:
        in_header = not self.headers_finished
        consumed: int = super().received(data)
        if self.error:
            return self._stop(data)
        if self.body_rcv is not None and (self._is_refused() if in_header else self._is_too_large()):
            return self._stop(data)
        return consumed

    def _is_refused(self) -> bool:
        """True if the body is not read. The application responds, because it sees the same headers."""
        head = Head(
            method=self.command,
            path=self.path.encode("latin-1").decode("utf-8", "replace"),
            content_type=self.headers.get("CONTENT_TYPE", ""),
            length=None if self.chunked else self.content_length,
            has_session=f"{settings.SESSION_COOKIE_NAME}=" in self.headers.get("COOKIE", "")
            or is_bearer(self.headers.get("AUTHORIZATION", "")),
        )
        if refusal(head) is not None:
            return True
        self.most = allowance(head.method, head.path).most
        self.large = (self.most if self.chunked else self.content_length) > LARGE
        self.client = self._address()
        if self.large and self._are_too_many(self.channel.server.clients_of_large_bodies()):
            self.error = ServerBusyError("Too many files are being sent at this moment. Try again in a minute.")
            return True
        return False

    def _address(self) -> str:
        """The client's address; behind the trusted proxy the one that it added."""
        address = str(self.channel.addr[0])
        if address != settings.TRUSTED_PROXY:
            return address
        return self.headers.get("X_FORWARDED_FOR", "").rpartition(",")[2].strip() or address

    def _are_too_many(self, clients: list[str]) -> bool:
        return len(clients) > MOST_LARGE or clients.count(self.client) > MOST_LARGE_OF_A_CLIENT

    def is_too_slow(self, now: int) -> bool:
        return (now - self.began - GRACE) * RATE > self.header_bytes_received + self.body_bytes_received

    def _is_too_large(self) -> bool:
        return self.body_bytes_received > self.most

    def _stop(self, data: bytes) -> int:
        """Ends the request: its body is dropped, and further data does not start another request."""
        if self.chunked:
            self.headers["CONTENT_LENGTH"] = str(self.most + 1 if self.most else 2**31)
        self.headers["CONNECTION"] = "close"
        self.close()
        self.body_rcv = None
        self.expect_continue = False
        self.completed = True
        self.channel.unread = True
        return len(data)


class ServerChannel(HTTPChannel):
    """One connection. It lingers after a refusal until the client has read the response."""

    unread = False  # True if the client may still send a body that is not read
    lingers_until = 0
    close_when_flushed: bool

    def parser_class(self, adj: Any) -> RequestParser:
        return RequestParser(self, adj)

    @property
    def busy(self) -> bool:
        """True while a response is being made or sent."""
        return bool(self.requests or self.total_outbufs_len or self.close_when_flushed)

    def readable(self) -> bool:
        if self.lingers_until:
            return not self.will_close
        return bool(super().readable()) and not self.server.stopping

    def handle_read(self) -> None:
        if not self.lingers_until:
            return super().handle_read()
        with contextlib.suppress(OSError):
            if self.recv(1 << 16):
                return None
        return self.handle_close()

    def handle_write(self) -> None:
        if not (self.close_when_flushed and self.unread):
            return super().handle_write()
        self._flush_exception(self._flush_some)
        if self.will_close or self.total_outbufs_len:
            return super().handle_write()
        # Closing now would reset the connection before the client has read the response.
        self.close_when_flushed = False
        self.lingers_until = seconds() + LINGER
        try:
            self.socket.shutdown(socket.SHUT_WR)
        except OSError:
            self.handle_close()
        return None

    def is_overdue(self, now: int) -> bool:
        if self.lingers_until:
            return now > self.lingers_until
        return not self.requests and self.request is not None and self.request.is_too_slow(now)
