"""Posts one message of a webhook: to an address that was checked, without following anything, within a fixed time.

The name is resolved once, all its addresses are checked, and the connection goes to the first of these that takes it: a
name that changes its address in between (DNS rebinding) leads nowhere else. TLS still proves the name.
"""

import http.client
import socket
import ssl
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from threading import Timer

from django.conf import settings

from shop.calc.targets import Target, TargetError, is_public, read_target

SILENCE = 5  # seconds that the other side may be silent
LONGEST = 15  # seconds from the connection to the end of the answer
MOST_READ = 16 * 1024  # bytes of the answer, of which only the status counts


@dataclass(frozen=True, slots=True)
class PostAnswer:
    """The status of an answer and its Retry-After header."""

    status: int
    retry_after: str = ""


class NoAnswerError(Exception):
    """There was no answer. `code` says why: unreachable, certificate, silent or no_http."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


def resolve(host: str, port: int) -> list[str]:
    """The IP addresses of a name."""
    return [str(entry[4][0]) for entry in socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)]


def checked(url: str) -> tuple[Target, list[str]]:
    """(the parsed address, the IP addresses to connect to, each once). TargetError if it may not be used.

    A name with any address that is not public is refused, unless WEBHOOK_PRIVATE_TARGETS allows such.
    """
    target = read_target(url, http_allowed=settings.WEBHOOK_HTTP)
    try:
        addresses = resolve(target.host, target.port)
    except (OSError, UnicodeError):
        raise TargetError("unknown_host") from None
    if not settings.WEBHOOK_PRIVATE_TARGETS and not all(is_public(address) for address in addresses):
        raise TargetError("private")
    return target, list(dict.fromkeys(addresses))


def post(url: str, headers: Mapping[str, str], body: bytes) -> PostAnswer:
    """Posts the body and returns the answer. Raises TargetError, or NoAnswerError if no answer comes."""
    target, addresses = checked(url)
    connection = _Connection(target, addresses)
    deadline = Timer(LONGEST, connection.break_off)
    deadline.daemon = True
    deadline.start()
    try:
        connection.request("POST", target.path, body, dict(headers))
        response = connection.getresponse()
        with suppress(OSError, http.client.HTTPException):
            response.read(MOST_READ)
        return PostAnswer(response.status, response.getheader("Retry-After") or "")
    except ssl.SSLError:
        raise NoAnswerError("certificate") from None
    except TimeoutError:
        raise NoAnswerError("silent") from None
    except OSError:
        raise NoAnswerError("silent" if connection.broken_off else "unreachable") from None
    except http.client.HTTPException:
        raise NoAnswerError("silent" if connection.broken_off else "no_http") from None
    finally:
        deadline.cancel()
        connection.close()


class _Connection(http.client.HTTPConnection):
    """A connection to one of the IP addresses that were checked, which can be broken off at any time."""

    broken_off = False

    def __init__(self, target: Target, addresses: Sequence[str]) -> None:
        super().__init__(target.host, target.port, timeout=SILENCE)
        self.target, self.addresses = target, addresses
        self.default_port = 443 if target.secure else 80  # which the header Host leaves out

    def connect(self) -> None:
        self.sock = self._connected()
        if self.target.secure:
            context = ssl.create_default_context()
            secured = context.wrap_socket(self.sock, server_hostname=self.target.host, do_handshake_on_connect=False)
            self.sock = secured
            secured.do_handshake()

    def _connected(self) -> socket.socket:
        """A socket to the first address that takes it. Raises the OSError of the last, or once it is broken off."""
        for number, address in enumerate(self.addresses, 1):
            try:
                return socket.create_connection((address, self.port), SILENCE)
            except OSError:
                if self.broken_off or number == len(self.addresses):
                    raise
        raise OSError("the name has no address")

    def break_off(self) -> None:
        self.broken_off = True
        if self.sock is not None:
            with suppress(OSError):
                socket.socket.shutdown(self.sock, socket.SHUT_RDWR)  # SSLSocket's own would change it under the reader


Post = Callable[[str, Mapping[str, str], bytes], PostAnswer]
