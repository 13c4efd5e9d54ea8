"""The server of `manage.py serve`: one process, one loop for reading and writing, eight threads for responses."""

import logging
import signal
from collections.abc import Callable
from typing import Any

from django.conf import settings
from waitress import wasyncore
from waitress.adjustments import Adjustments
from waitress.server import TcpWSGIServer

from shop.serving import background
from shop.serving.connection import ServerChannel, seconds

log = logging.getLogger(__name__)
THREADS = 8
MOST_CONNECTIONS = 400
MOST_FROM_ONE_ADDRESS = 64  # except for the trusted proxy
LONGEST_ANSWER = 30  # seconds for a running request after SIGTERM


class Server(TcpWSGIServer):
    """A waitress server with our connection limits and an orderly stop."""

    stopping = False

    def __init__(self, application: Callable[..., Any], listen: str) -> None:
        super().__init__(application, map={}, adj=adjustments(listen))
        self._asked: set[int] = set()

    def channel_class(self, server: "Server", sock: Any, addr: Any, adj: Any, map: Any) -> ServerChannel | None:
        same = sum(channel.addr[0] == addr[0] for channel in self.active_channels.values())
        if same >= MOST_FROM_ONE_ADDRESS and addr[0] != settings.TRUSTED_PROXY:
            sock.close()
            return None
        return ServerChannel(server, sock, addr, adj, map=map)

    def clients_of_large_bodies(self) -> list[str]:
        """The client's address of each large body that is being read or answered."""
        open_now = [request for channel in self.channels() for request in (channel.request, *channel.requests)]
        return [request.client for request in open_now if request is not None and request.large]

    def channels(self) -> list[ServerChannel]:
        return list(self.active_channels.values())

    def maintenance(self, now: Any) -> None:
        super().maintenance(now)
        for channel in self.channels():
            if channel.is_overdue(seconds()):
                channel.will_close = True

    def run(self) -> None:
        """Serves until SIGTERM or SIGINT, completes running requests, then stops the background threads."""
        for number in (signal.SIGTERM, signal.SIGINT):
            signal.signal(number, self._stop)
        background.start_all()
        try:
            while not self.stopping:
                self._turn()
            self._finish()
        finally:
            background.stop_all()

    def _stop(self, number: int, frame: Any) -> None:
        if number in self._asked:  # a second Ctrl-C stops at once
            raise SystemExit(1)
        self._asked.add(number)
        self.stopping = True
        self.pull_trigger()

    def _turn(self) -> None:
        wasyncore.loop(timeout=1, use_poll=True, map=self._map, count=1)

    def _finish(self) -> None:
        wasyncore.dispatcher.close(self)  # no new connection
        end = seconds() + LONGEST_ANSWER
        while any(channel.busy for channel in self.channels()):
            if seconds() > end:
                log.warning("stopped in the middle of an answer that took more than %d s", LONGEST_ANSWER)
                break
            self._turn()
        self.task_dispatcher.shutdown(timeout=1)
        wasyncore.close_all(self._map)


def adjustments(listen: str) -> Adjustments:
    """The settings of waitress."""
    proxy: dict[str, Any] = {}
    if settings.TRUSTED_PROXY:
        proxy = {
            "trusted_proxy": settings.TRUSTED_PROXY,
            "trusted_proxy_count": 1,
            "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto"},
        }
    return Adjustments(
        listen=listen,
        threads=THREADS,
        connection_limit=MOST_CONNECTIONS,
        channel_timeout=30,
        cleanup_interval=2,
        max_request_header_size=32 * 1024,
        max_request_body_size=2**40,  # our parser has a limit for each address
        asyncore_use_poll=True,
        clear_untrusted_proxy_headers=True,
        log_socket_errors=False,
        ident=None,
        **proxy,
    )
