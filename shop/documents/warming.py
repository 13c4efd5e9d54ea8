"""Loads WeasyPrint and the fonts in a thread after the start, so that nobody waits for them.

The import takes 0.6 s of processor time (three times that without stored byte code), and the first page also reads the
font configuration; every later page takes a twentieth of that.
"""

import logging
from datetime import UTC, datetime
from threading import Event, Thread

from shop.documents import pdf

log = logging.getLogger(__name__)
DELAY = 10  # seconds after the start, by which the first requests have been answered
PAGE = '<!doctype html><html lang="en"><title>1</title><p>1'


class Warming:
    def __init__(self, delay: int = DELAY) -> None:
        self._delay, self._stopped = delay, Event()
        self._thread = Thread(target=self._print, name="warming", daemon=True)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """Waits until nothing is being printed."""
        self._stopped.set()
        self._thread.join()

    def _print(self) -> None:
        if self._stopped.wait(self._delay):
            return
        try:
            pdf.render(PAGE, title="", made_at=datetime(2026, 1, 1, tzinfo=UTC))
        except Exception:  # printing the first paper will raise it again, where somebody can act on it
            log.warning("paper cannot be printed", exc_info=True)
