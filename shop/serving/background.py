"""Threads beside the server: they start before the first request and stop after the last response.

An app registers a pair of functions in its `AppConfig.ready`. `stop` returns once the thread has ended.
"""

from collections.abc import Callable

Step = Callable[[], None]
PAIRS: list[tuple[Step, Step]] = []


def register(start: Step, stop: Step) -> None:
    """Registers a background thread by its two functions."""
    PAIRS.append((start, stop))


def start_all() -> None:
    for start, _ in PAIRS:
        start()


def stop_all() -> None:
    """Stops in reverse order, so that a thread can rely on those started before it."""
    for _, stop in reversed(PAIRS):
        stop()
