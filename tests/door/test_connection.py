"""A request has to arrive at a minimum rate, or its connection is closed."""

from types import SimpleNamespace

from shop.serving.connection import GRACE, RATE, RequestParser
from shop.serving.server import adjustments


def parser() -> RequestParser:
    server = SimpleNamespace(clients_of_large_bodies=lambda: ["127.0.0.1"])
    return RequestParser(
        SimpleNamespace(server=server, addr=("127.0.0.1", 1), unread=False), adjustments("127.0.0.1:0")
    )


def test_a_header_that_never_ends_is_too_slow() -> None:
    reading = parser()
    reading.received(b"GET / HTTP/1.1\r\nHost: 127")
    assert not reading.is_too_slow(reading.began + GRACE)
    assert reading.is_too_slow(reading.began + GRACE + 1)


def test_a_body_has_as_long_as_it_keeps_its_rate() -> None:
    reading = parser()
    head = b"POST /api/v1/shops/x/customers HTTP/1.1\r\nHost: x\r\nContent-Length: 100000\r\n\r\n"
    assert reading.received(head) == len(head)
    reading.received(b"x" * RATE * 5)
    assert not reading.is_too_slow(reading.began + GRACE + 5)
    assert reading.is_too_slow(reading.began + GRACE + 6)
