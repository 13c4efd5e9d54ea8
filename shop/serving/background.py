"""Threads that run beside the server: started before the first request, stopped after the last answer.

An app registers a pair in its `AppConfig.ready`. `stop` returns when the thread has ended.
"""

from collections.abc import Callable

Step = Callable[[], None]
PAIRS: list[tuple[Step, Step]] = []


def register(start: Step, stop: Step) -> None:
    PAIRS.append((start, stop))


def start_all() -> None:
    for start, _ in PAIRS:
        start()


def stop_all() -> None:
    """In the opposite order, so that a thread may rely on those that were started before it."""
    for _, stop in reversed(PAIRS):
        stop()
