"""HTTPS as `manage.py unit` configures it: nginx in front, a certificate made here, and the server behind it."""

import http.client
import json
import shutil
import socket
import ssl
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from tests.cast import PASSWORD
from tests.drills.installation import READY, answers, free_port
from tests.installing.machine import Machine, make_machine

HOST = "shop.example"
CLIENT = "127.0.0.9"  # not the proxy's address
FORGED = "203.0.113.66"
MIB = 1024**2


@dataclass
class Browser:
    """Speaks HTTPS to the host by its name, and keeps its cookies."""

    port: int
    certificate: Path
    cookies: dict[str, str] = field(default_factory=dict)

    def ask(self, method: str, path: str, body: Any = None) -> tuple[int, list[tuple[str, str]], bytes]:
        trust = ssl.create_default_context(cafile=str(self.certificate))
        plain = socket.create_connection(("127.0.0.1", self.port), timeout=60, source_address=(CLIENT, 0))
        connection = http.client.HTTPSConnection(HOST, self.port, context=trust)
        connection.sock = trust.wrap_socket(plain, server_hostname=HOST)
        headers = {
            "Host": HOST,
            "Origin": f"https://{HOST}",
            "X-Forwarded-For": FORGED,
            "Content-Type": "application/json",
            "Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items()),
            "X-CSRFToken": self.cookies.get("__Host-csrftoken", ""),
        }
        try:
            content = body if isinstance(body, bytes) or body is None else json.dumps(body)
            connection.request(method, path, content, headers)
            answer = connection.getresponse()
            text = answer.read()
        finally:
            connection.close()
        for name, value in answer.getheaders():
            if name.lower() == "set-cookie":
                cookie, _, rest = value.partition(";")[0].partition("=")
                self.cookies[cookie] = rest
        return answer.status, [(name.lower(), value) for name, value in answer.getheaders()], text


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    certificate, key = tmp_path / "host.pem", tmp_path / "host.key"
    subprocess.run(
        ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "1", "-subj", f"/CN={HOST}"]
        + ["-addext", f"subjectAltName=DNS:{HOST}", "-keyout", key, "-out", certificate],
        check=True,
        capture_output=True,
    )
    return make_machine(tmp_path, HOST, certificate=certificate, key=key)


@contextmanager
def proxied(machine: Machine, folder: Path) -> Iterator[tuple[int, int]]:
    """nginx with the written configuration on two free ports; (that of HTTP, that of HTTPS)."""
    plain, secure = free_port(), free_port()
    text = (machine.root / "etc/nginx/conf.d/kitwright.conf").read_text()
    for written, here in (
        ("listen [::]:80;", ""),
        ("listen [::]:443 ssl http2;", ""),
        ("listen 80;", f"listen 127.0.0.1:{plain};"),
        ("listen 443 ssl http2;", f"listen 127.0.0.1:{secure} ssl http2;"),
        ("/var/log/nginx/", f"{folder}/"),
    ):
        assert written in text
        text = text.replace(written, here)
    temporary = "".join(
        f"{kind}_temp_path {folder}/{kind};" for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    (folder / "nginx.conf").write_text(
        f"pid {folder}/nginx.pid; error_log {folder}/error.log; events {{}} http {{ {temporary}\n{text} }}"
    )
    program = shutil.which("nginx", path="/usr/sbin:/usr/local/sbin:/usr/bin")
    assert program, "nginx is missing: .make/setup.sh drills installs it"
    command = [program, "-p", str(folder), "-c", str(folder / "nginx.conf"), "-g", "daemon off;"]
    if subprocess.run(["id", "-u"], capture_output=True, text=True).stdout == "0\n":
        command[-1] += " user root;"  # the test's folder is for its owner only
    with (folder / "nginx.log").open("wb") as log:
        process = subprocess.Popen(command, stdout=log, stderr=log)
    try:
        give_up = time.monotonic() + READY
        while not (answers(plain) and answers(secure)):
            assert process.poll() is None and time.monotonic() < give_up, (folder / "nginx.log").read_text()
            time.sleep(0.05)
        yield plain, secure
    finally:
        process.terminate()
        process.wait()


@pytest.mark.drill
def test_a_person_signs_in_over_https(machine: Machine, tmp_path: Path) -> None:
    machine.make_tables()
    machine.manage("shop", "saltmarsh", "--name", "Saltmarsh", "--currency", "EUR", "--zone", "Europe/Vienna")
    member = ["member", "kim@saltmarsh.example", "--shop", "saltmarsh", "--name", "Kim Arden", "--role", "manager"]
    machine.manage(*member, "--password-stdin", typed=f"{PASSWORD}\n")
    with machine.served() as server, proxied(machine, tmp_path) as (plain, secure):
        browser = Browser(secure, tmp_path / "host.pem")
        status, headers, _ = browser.ask("GET", "/api/v1/session")
        assert status == 200 and ("strict-transport-security", "max-age=3600") in headers
        wrong = {"email": "kim@saltmarsh.example", "password": "not this one"}
        assert browser.ask("POST", "/api/v1/session", wrong)[0] == 401
        status, headers, _ = browser.ask("POST", "/api/v1/session", wrong | {"password": PASSWORD})
        assert status == 200
        cookies = [value for name, value in headers if name == "set-cookie"]
        assert cookies and all("; Secure" in cookie and cookie.startswith("__Host-") for cookie in cookies)
        assert browser.ask("GET", "/api/v1/shops/saltmarsh/quotes")[0] == 200
        assert browser.ask("GET", "/metrics")[0] == 404 and browser.ask("GET", "/readyz")[0] == 200
        assert browser.ask("POST", "/api/v1/session", bytes(6 * MIB + 1))[2].startswith(b"<html>"), "nginx refuses it"
        large = browser.ask("POST", "/api/v1/session", bytes(6 * MIB))
        assert large[0] == 413 and json.loads(large[2])["title"], "nginx passes it on"
        status, place = over_plain_http(plain)
        assert (status, place) == (301, f"https://{HOST}/q/saltmarsh/0123456789abcdefghij")
        server.terminate()
        log = server.communicate(timeout=60)[0]
    [failed] = [line for line in log.splitlines() if "sign-in failed" in line]
    assert failed.endswith(f"address={CLIENT}")
    assert "200 GET /api/v1/shops/saltmarsh/quotes person=" in log and FORGED not in log
    written = "".join(path.read_text() for path in tmp_path.glob("*.log"))
    assert "0123456789abcdefghij" not in written, "the proxy writes secrets of links"


def over_plain_http(port: int) -> tuple[int, str]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.request("GET", "/q/saltmarsh/0123456789abcdefghij", headers={"Host": HOST})
    answer = connection.getresponse()
    connection.close()
    return answer.status, answer.headers["Location"]
