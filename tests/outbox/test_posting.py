"""A message goes to the address that was checked, and TLS proves the name."""

import socket
import ssl
import subprocess
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from shop import posting
from shop.posting import NoAnswerError, post

NAME = "hooks.example"


@pytest.fixture
def port(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, settings: Any) -> Iterator[int]:
    """A server of HTTPS on this machine with a certificate for NAME, which our side trusts."""
    key, certificate = tmp_path / "key.pem", tmp_path / "certificate.pem"
    facts = ["-subj", f"/CN={NAME}", "-addext", f"subjectAltName=DNS:{NAME}", "-days", "2"]
    new = ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"]
    subprocess.run([*new, *facts, "-keyout", key, "-out", certificate], check=True, capture_output=True)
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate))
    settings.WEBHOOK_PRIVATE_TARGETS = True
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate, key)
    with socket.create_server(("127.0.0.1", 0)) as listening:
        thread = threading.Thread(target=answer_all, args=(listening, context), daemon=True)
        thread.start()
        yield listening.getsockname()[1]
        listening.shutdown(socket.SHUT_RDWR)
    thread.join(10)


def answer_all(listening: socket.socket, context: ssl.SSLContext) -> None:
    """Answers 204 on each connection, and sends on a plain one what is no TLS."""
    while True:
        try:
            door, _ = listening.accept()
        except OSError:
            return
        with suppress(OSError), context.wrap_socket(door, server_side=True) as secured:
            request = b""
            while not request.endswith(b"{}") and (more := secured.recv(65536)):  # head and body come apart
                request += more
            secured.sendall(b"HTTP/1.1 204 No Content\r\n\r\n")


def test_it_connects_to_the_checked_address_and_the_name_is_proved(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        posting, "resolve", lambda host, port: ["127.0.0.2", "127.0.0.1"]
    )  # nobody listens at the first
    assert post(f"https://{NAME}:{port}/hook", {}, b"{}").status == 204
    with pytest.raises(NoAnswerError, match="certificate"):
        post(f"https://another.example:{port}/hook", {}, b"{}")
    with pytest.raises(NoAnswerError, match="unreachable"):
        post("https://127.0.0.1:1/", {}, b"{}")


def test_a_receiver_that_drips_is_left_after_a_while(monkeypatch: pytest.MonkeyPatch, settings: Any) -> None:
    """Each byte comes in time, the answer never."""
    settings.WEBHOOK_PRIVATE_TARGETS = settings.WEBHOOK_HTTP = True
    monkeypatch.setattr(posting, "LONGEST", 1)
    ended = threading.Event()
    with socket.create_server(("127.0.0.1", 0)) as listening:

        def drip() -> None:
            with suppress(OSError), listening.accept()[0] as door:
                while not ended.wait(0.05):
                    door.sendall(b"H")

        thread = threading.Thread(target=drip, daemon=True)
        thread.start()
        with pytest.raises(NoAnswerError, match="silent"):
            post(f"http://127.0.0.1:{listening.getsockname()[1]}/", {}, b"{}")
        ended.set()
        thread.join(10)
