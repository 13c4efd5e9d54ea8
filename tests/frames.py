"""Room for the frames of nested calls (`-p tests.frames`): a third of the time of tests that send requests.

CPython 3.11 keeps a thread's frames in chunks of 16 kB and gives a chunk back to the system as soon as no frame is in
it. A loop whose calls go to and fro over the end of a chunk asks the system for memory at every turn, and a request
below pytest, a test and a client nests deep enough to do so thousands of times.
"""

from collections.abc import Callable
from typing import TypeVar

import pytest

Given = TypeVar("Given")
BELOW = pytest.StashKey[bool]()  # set in the run that is below the large frame
SLOTS = 16_000  # of 8 bytes: such a frame gets a chunk of 256 kB, half of which is left for the calls below it


def in_one_chunk(act: Callable[[], Given]) -> Given:
    """Calls `act` from a frame so large that the frames of all its nested calls lie in the same chunk."""
    return act()


in_one_chunk.__code__ = in_one_chunk.__code__.replace(co_stacksize=SLOTS)


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> int | pytest.ExitCode | None:
    """Runs the hook again in that frame. The process of each core begins with this hook as well."""
    if config.stash.get(BELOW, False):
        return None
    config.stash[BELOW] = True
    return in_one_chunk(lambda: config.hook.pytest_cmdline_main(config=config))
