"""The server withstands strangers: a connection costs no thread, and a refused body costs no disk."""

import signal
from collections.abc import Iterator
from contextlib import ExitStack

import pytest

from tests.door.serving import ANSWER, PATIENCE, PROXY, Served, read_answer, request, serve

MUCH = 60_000_000


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    with serve(tmp_path_factory.mktemp("served")) as running:
        yield running


def test_sixteen_slow_connections_stop_nobody(served: Served) -> None:
    with ExitStack() as slow:
        for number in range(16):
            door = slow.enter_context(served.connect())
            begun = b"POST /api/v1/session HTTP/1.1\r\nHost: 127.0.0.1\r\n"
            door.sendall(begun if number % 2 else begun + b"Content-Length: 100\r\n\r\n{")
        assert served.ask("GET /seen").status == 200


@pytest.mark.parametrize("path", ["/q/x/answer", "/sign-in", "/api/v1/shops/x/imports", "/api/v1/session", "/nowhere"])
@pytest.mark.parametrize("content", ["multipart/form-data; boundary=x", "application/json"])
def test_a_body_far_too_large_is_refused_unread(served: Served, path: str, content: str) -> None:
    head = f"POST {path}\nContent-Type: {content}\nContent-Length: {MUCH}"
    assert served.ask(head).status == 413  # nothing of the body was sent
    assert served.files_on_disk() == 0


def test_a_client_that_sends_on_reads_why_it_was_refused(served: Served) -> None:
    head = f"POST /q/x/answer\nContent-Type: multipart/form-data; boundary=x\nContent-Length: {MUCH}"
    answer = served.ask(head, b"y" * MUCH)
    assert (answer.status, answer.headers["connection"]) == (413, "close")
    assert answer.headers["content-type"].startswith("text/plain")
    assert served.files_on_disk() == 0


def test_a_client_that_asks_whether_to_send_is_told_not_to(served: Served) -> None:
    answer = served.ask(f"POST /api/v1/session\nContent-Length: {MUCH}\nExpect: 100-continue")
    assert (answer.status, answer.headers["content-type"]) == (413, "application/problem+json")


def test_a_chunked_body_is_refused_where_it_passes_the_limit(served: Served) -> None:
    chunk = b"10000\r\n" + b"x" * 0x10000 + b"\r\n"
    head = "POST /api/v1/session\nContent-Type: application/json\nTransfer-Encoding: chunked"
    assert served.ask(head, chunk * 20).status == 413
    assert served.files_on_disk() == 0


def test_what_comes_after_a_short_length_is_not_read_as_the_body(served: Served) -> None:
    answer = served.ask("POST /q/x/answer\nContent-Type: multipart/form-data\nContent-Length: 10", b"x" * 1_000_000)
    assert answer.status in (400, 415)
    assert served.files_on_disk() == 0


def test_a_file_from_nobody_is_refused_unread(served: Served) -> None:
    head = "POST /api/v1/shops/x/imports\nContent-Type: multipart/form-data; boundary=x\nContent-Length: 3000000"
    assert served.ask(head).status == 401
    assert served.files_on_disk() == 0


@pytest.mark.parametrize("through", ["", PROXY], ids=["directly", "through-the-proxy"])
def test_a_client_that_sends_files_slowly_keeps_nobody_out(served: Served, through: str) -> None:
    head = "POST /api/v1/shops/x/imports\nContent-Type: multipart/form-data; boundary=x\nContent-Length: 3000000"
    head += "\nCookie: sessionid=none; __Host-sessionid=none\nExpect: 100-continue"
    with ExitStack() as doors:

        def begin(client: str) -> bytes:
            door = doors.enter_context(served.connect(through or client))
            door.sendall(request(f"{head}\nX-Forwarded-For: {client}"))
            return door.recv(12)

        statuses = [begin("127.0.0.5") for _ in range(7)]
        assert statuses == [b"HTTP/1.1 100"] * 6 + [b"HTTP/1.1 503"]
        assert begin("127.0.0.6") == b"HTTP/1.1 100"


@pytest.mark.parametrize(
    ("source", "address", "secure"),
    [(PROXY, "203.0.113.9", True), ("127.0.0.1", "127.0.0.1", False)],
    ids=["from-the-proxy", "from-anybody-else"],
)
def test_only_the_proxy_says_who_the_client_is(served: Served, source: str, address: str, secure: bool) -> None:
    head = "GET /seen\nX-Forwarded-For: 198.51.100.1, 203.0.113.9\nX-Forwarded-Proto: https"
    answer = served.ask(head, source=source)
    assert answer.body == b'{"address": "%s", "secure": %s}' % (address.encode(), b"true" if secure else b"false")


def test_a_client_may_hold_only_so_many_connections(served: Served) -> None:
    with ExitStack() as files:
        doors = [files.enter_context(served.connect("127.0.0.3")) for _ in range(70)]
        for door in doors:
            door.sendall(b"GET /seen HTTP/1.1\r\n")
        assert served.ask("GET /seen").status == 200
        refused = 0
        for door in doors:
            door.settimeout(0.01)
            try:
                refused += door.recv(1) == b""
            except TimeoutError:
                continue
            except ConnectionError:
                refused += 1
        assert refused == 6


def test_sigterm_in_the_middle_of_an_answer(tmp_path_factory: pytest.TempPathFactory) -> None:
    with serve(tmp_path_factory.mktemp("stopped")) as served, served.connect() as door:
        door.sendall(request("GET /slow"))
        served.wait_for("begun")
        assert (served.folder / "thread-started").exists() and not (served.folder / "thread-stopped").exists()
        served.process.send_signal(signal.SIGTERM)
        while True:  # the server no longer listens, and the request is still running
            try:
                served.connect().close()
            except ConnectionResetError:  # caught between its closing and the system's
                continue
            except ConnectionRefusedError:
                break
        (served.folder / "go-on").touch()
        answer = read_answer(door)
        assert (answer.status, answer.body) == (200, ANSWER)
        assert served.process.wait(PATIENCE) == 0
        assert (served.folder / "thread-stopped").exists()
