"""A small HTTP server on a free port that takes the messages of webhooks, and answers as a test says."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

PATIENCE = 60  # seconds


@dataclass
class Receiver:
    """`status` is the answer to the next posts. `endless`: the answer's body never ends.

    `pauses`: a post sets `reached` and is answered after `go_on`.
    """

    url: str = ""
    status: int = 200
    location: str = ""
    retry_after: str = ""
    endless: bool = False
    pauses: bool = False
    reached: threading.Event = field(default_factory=threading.Event)
    go_on: threading.Event = field(default_factory=threading.Event)
    posts: list[tuple[str, dict[str, str], bytes]] = field(default_factory=list)
    taken: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(0))

    def wait_for_a_post(self) -> None:
        assert self.taken.acquire(timeout=PATIENCE), "nothing was posted"


@contextmanager
def webhook_receiver() -> Iterator[Receiver]:
    receiver = Receiver()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["Content-Length"]))
            headers = {name.lower(): value for name, value in self.headers.items()}
            receiver.posts.append((self.path, headers, body))
            if receiver.pauses:
                receiver.reached.set()
                receiver.go_on.wait(PATIENCE)
            self.send_response(receiver.status)
            if receiver.retry_after:
                self.send_header("Retry-After", receiver.retry_after)
            if receiver.location:
                self.send_header("Location", receiver.location)
            self.end_headers()
            try:
                while receiver.endless:
                    self.wfile.write(b"x" * 65536)
            except OSError:
                self.close_connection = True
            receiver.taken.release()

        def log_message(self, format: str, *args: object) -> None:
            """Writes nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    receiver.url = f"http://127.0.0.1:{server.server_port}/hook"
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True)
    thread.start()
    try:
        yield receiver
    finally:
        server.shutdown()
        server.server_close()
        thread.join(PATIENCE)
