"""A thread beside the server that does one thing after another, and looks for more when it is woken or time passes."""

import logging
import time
from collections.abc import Callable
from threading import Event, Thread

from django.db import close_old_connections, connection

log = logging.getLogger(__name__)
SECONDS = 5  # between two looks, for work of other processes and for further tries
LONGEST_STOP = 60  # seconds for the work in hand: the mail server's longest silence, several times
STUCK = 2 * LONGEST_STOP


class Worker:
    """The thread of this process. `looked_at` is the second of its last look for work, by a monotonic clock.

    `work_next` does what is due longest and returns False where nothing is. `woken` is set when work is added.
    """

    looked_at: int | None = None

    def __init__(
        self, name: str, work_next: Callable[[], bool], woken: Event, begin: Callable[[], None] | None = None
    ) -> None:
        self.name, self.work_next, self.woken, self.begin = name, work_next, woken, begin
        self._stopped = Event()
        self._thread = Thread(target=self._work, name=name, daemon=True)

    def start(self) -> None:
        if self._thread.ident is None:
            self._thread.start()

    def stop(self) -> None:
        """Waits for the work in hand. The rest stays where it is."""
        self._stopped.set()
        self.woken.set()
        if self._thread.is_alive():
            self._thread.join(LONGEST_STOP)

    def is_alive(self) -> bool:
        """True if the thread runs and is not stuck in one piece of work."""
        looked_at = self.looked_at
        return self._thread.is_alive() and looked_at is not None and time.monotonic() - looked_at < STUCK

    def _work(self) -> None:
        begin = self.begin
        while not self._stopped.is_set():
            self.woken.clear()
            close_old_connections()
            self.looked_at = int(time.monotonic())
            try:
                if begin is not None:
                    begin()
                    begin = None
                while not self._stopped.is_set() and self.work_next():
                    self.looked_at = int(time.monotonic())
            except Exception:  # the database: a person sees it in the log, and the next look tries again
                log.exception("the thread %s was interrupted", self.name)
            self.woken.wait(SECONDS)
        connection.close()
