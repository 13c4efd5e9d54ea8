"""The next step of a message that could not be sent: another try, a stop, or a person's decision."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

AGAIN, ARRIVED, CANCEL = "again", "arrived", "cancel"
"""The decisions that a person can take about a message."""

Step = Literal["waiting", "failed", "begun"]


@dataclass(frozen=True, slots=True)
class Failure:
    """A try that did not succeed. `code` names the reason, `reply` holds the words of the mail server.

    `left`: the message may have left, because the server had been given its text and did not refuse it.
    `lasting`: the server refused it for good (a 5xx reply).
    """

    code: str
    reply: str = ""
    left: bool = False
    lasting: bool = False


@dataclass(frozen=True, slots=True)
class NextStep:
    """The state of the message, and the minutes until its next try; 0 where there is none."""

    state: Step
    minutes: int = 0


def after_failure(failure: Failure, tries: int, delays: Sequence[int]) -> NextStep:
    """The next step after try number `tries`. `delays` are the minutes before the second try, the third, and so on.

    What may have left stays begun and is never tried again by itself: a person decides.
    """
    if failure.left:
        return NextStep("begun")
    if failure.lasting or tries > len(delays):
        return NextStep("failed")
    return NextStep("waiting", delays[tries - 1])
