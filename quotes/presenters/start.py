"""The guided start in words."""

from collections.abc import Sequence
from typing import cast

from quotes.answers.start import StartOut, StartState, StartStepOut, StepCode
from quotes.queries.start import StartStep
from shop.words import say


def start_answer(steps: Sequence[StartStep]) -> StartOut:
    following = next((step.code for step in steps if not step.done and not step.later), "")
    return StartOut(
        done=sum(step.done for step in steps),
        finished=all(step.done for step in steps),
        steps=[
            StartStepOut(
                code=cast(StepCode, step.code),
                title=say(f"start.{step.code}"),
                words=say(f"start.{step.code}.why"),
                example=say(f"start.{step.code}.example"),
                state=_state(step, following),
            )
            for step in steps
        ],
    )


def _state(step: StartStep, following: str) -> StartState:
    if step.done:
        return "done"
    if step.later:
        return "later"
    return "next" if step.code == following else "open"
