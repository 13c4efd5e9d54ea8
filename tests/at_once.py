"""Acts at the same instant, each on a thread and a database connection of its own."""

import threading
from collections.abc import Callable
from typing import Any

from django.db import connection

PATIENCE = 120  # seconds for all of them; a deadlock is a failure and never a test that does not end


def at_once(*acts: Callable[[], Any]) -> list[Any]:
    """Runs the acts in threads; the result or exception of each, in the order of the acts."""
    start, outcomes = threading.Barrier(len(acts)), [None] * len(acts)

    def run(at: int, act: Callable[[], Any]) -> None:
        try:
            start.wait(PATIENCE)
            outcomes[at] = act()
        except Exception as error:
            outcomes[at] = error
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(at, act), daemon=True) for at, act in enumerate(acts)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(PATIENCE)
    assert not [thread for thread in threads if thread.is_alive()], "an act does not end: a deadlock"
    return outcomes
