"""A small SMTP server (RFC 5321) on a free port, that takes mail, refuses it, or breaks off where a test says so."""

import base64
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

TAKEN = "250 taken"
PATIENCE = 60  # seconds


@dataclass(frozen=True)
class Delivered:
    sender: str
    to: str
    raw: bytes

    @property
    def message(self) -> EmailMessage:
        read = message_from_bytes(self.raw, policy=default)
        assert isinstance(read, EmailMessage)
        return read

    def part(self, kind: str) -> str:
        body = self.message.get_body((kind,))
        assert body is not None
        return str(body.get_content())


@dataclass
class SmtpServer:
    """`replies`: the reply to a verb (EHLO, AUTH, MAIL, RCPT, DATA, or TEXT: the text itself) instead of a good one.

    A reply of "" closes the connection. `pauses` holds the verbs before whose reply the server waits for `go_on`.
    `reached` is set when a pause has begun.
    """

    port: int = 0
    offers: tuple[str, ...] = ()
    replies: dict[str, str] = field(default_factory=dict)
    pauses: set[str] = field(default_factory=set)
    delivered: list[Delivered] = field(default_factory=list)
    heard: list[str] = field(default_factory=list)
    reached: threading.Event = field(default_factory=threading.Event)
    go_on: threading.Event = field(default_factory=threading.Event)
    taken: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(0))

    def wait_for_mail(self) -> None:
        assert self.taken.acquire(timeout=PATIENCE), "no mail came"

    def reply(self, verb: str, otherwise: str) -> str:
        if verb in self.pauses:
            self.reached.set()
            self.go_on.wait(PATIENCE)
        return self.replies.get(verb, otherwise)


class Session:
    def __init__(self, server: SmtpServer, door: socket.socket) -> None:
        self.server, self.door, self.file = server, door, door.makefile("rb")
        self.sender = self.to = ""

    def run(self) -> None:
        with suppress(OSError), self.door, self.file:
            self.say("220 ready")
            while line := self.file.readline():
                self.server.heard.append(line.decode().strip())
                if not self.step(line.decode().strip()):
                    return

    def say(self, reply: str) -> bool:
        if reply:
            self.door.sendall(f"{reply}\r\n".encode())
        return bool(reply)

    def step(self, line: str) -> bool:
        """Answers a command; False where the connection ends."""
        verb, _, rest = line.partition(" ")
        verb = verb.upper()
        if verb == "EHLO":
            lines = ("ready", *self.server.offers)
            greeting = "\r\n".join(f"250{'-' if n < len(lines) else ' '}{line}" for n, line in enumerate(lines, 1))
            return self.say(self.server.reply(verb, greeting))
        if verb == "AUTH":
            self.server.heard.append(base64.b64decode(rest.split()[-1]).decode())
            return self.say(self.server.reply(verb, "235 welcome"))
        if verb == "QUIT":
            self.say("221 bye")
            return False
        if verb == "DATA":
            return self.data()
        if verb == "MAIL":
            self.sender = rest
        if verb == "RCPT":
            self.to = rest.partition(":")[2].strip("<>")
        return self.say(self.server.reply(verb, "250 go on"))

    def data(self) -> bool:
        go = self.server.reply("DATA", "354 go on")
        if not self.say(go) or not go.startswith("354"):
            return bool(go)
        lines = []
        while (line := self.file.readline()) not in (b".\r\n", b""):
            lines.append(line[1:] if line.startswith(b".") else line)
        if not line:
            return False
        if self.server.replies.get("TEXT", TAKEN)[:1] in ("2", ""):  # taken, though the reply may get lost
            self.server.delivered.append(Delivered(self.sender, self.to, b"".join(lines)))
            self.server.taken.release()
        return self.say(self.server.reply("TEXT", TAKEN))


@contextmanager
def smtp_server() -> Iterator[SmtpServer]:
    server = SmtpServer()
    with socket.create_server(("127.0.0.1", 0)) as listening:
        server.port = listening.getsockname()[1]

        def accept() -> None:
            with suppress(OSError):
                while True:
                    door, _ = listening.accept()
                    threading.Thread(target=Session(server, door).run, daemon=True).start()

        thread = threading.Thread(target=accept, daemon=True)
        thread.start()
        try:
            yield server
        finally:
            server.go_on.set()
            listening.shutdown(socket.SHUT_RDWR)
    thread.join(PATIENCE)
