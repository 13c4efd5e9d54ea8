"""The server is killed without warning while it sends e-mails: none is ever sent twice."""

import json
from collections import Counter
from collections.abc import Iterator

import pytest

from tests.drills.installation import Installation, kill
from tests.smtp_server import PATIENCE, SmtpServer, smtp_server


@pytest.fixture
def server(monkeypatch: pytest.MonkeyPatch) -> Iterator[SmtpServer]:
    with smtp_server() as running:
        names = {"HOST": "127.0.0.1", "PORT": str(running.port), "SECURITY": "none"}
        for name, value in names.items():
            monkeypatch.setenv(f"SMTP_{name}", value)
        monkeypatch.setenv("MAIL_FROM", "quotes@workshop.example")
        yield running


def states_after(installation: Installation, *words: str) -> dict[str, str]:
    """{address: state} of every e-mail, the first one first."""
    rows = json.loads(installation.python("-m", "tests.drills.mails", *words).splitlines()[-1])
    return {to: state for _, to, state in rows}


def delivered(server: SmtpServer) -> Counter[str]:
    return Counter(mail.to for mail in server.delivered)


@pytest.mark.drill
@pytest.mark.parametrize("verb", ["TEXT", "RCPT"])
def test_what_was_begun_when_the_server_was_killed_is_not_sent_again(
    installation: Installation, server: SmtpServer, verb: str
) -> None:
    """Killed between the mail server's having the text and our note of it, or before the text."""
    states_after(installation, "put", "2")
    server.pauses.add(verb)
    process = installation.start()
    try:
        assert server.reached.wait(PATIENCE), "nothing was sent"
    finally:
        kill(process)
    server.pauses.clear()
    server.go_on.set()
    taken_before = 1 if verb == "TEXT" else 0
    for _ in range(taken_before):
        server.wait_for_mail()
    with installation.served():
        server.wait_for_mail()
    first = {"maren-0@mail.example": 1} if verb == "TEXT" else {}
    assert delivered(server) == first | {"maren-1@mail.example": 1}
    assert states_after(installation, "states")["maren-0@mail.example"] == "begun"


@pytest.mark.drill
def test_no_mail_is_sent_twice_however_often_the_server_is_killed(
    installation: Installation, server: SmtpServer
) -> None:
    mails, kills = 120, 20
    states_after(installation, "put", str(mails))
    for cycle in range(kills):
        process = installation.start()
        try:
            for _ in range(1 + cycle % 4):
                server.wait_for_mail()
        finally:
            kill(process)
    with installation.served():
        while "maren-119@mail.example" not in delivered(server):
            server.wait_for_mail()
    states, sent = states_after(installation, "states"), delivered(server)
    counts = Counter(states.values())
    assert max(sent.values()) == 1
    assert set(counts) <= {"done", "begun"} and counts["begun"] <= kills + 1
    assert all(sent[to] for to, state in states.items() if state == "done")
    print(f"\n{mails} e-mails, {kills} kills: {len(sent)} delivered, {counts['begun']} unsure, 0 twice")
