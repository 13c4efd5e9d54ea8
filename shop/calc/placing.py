"""Orders a job's steps: the work of a later agreement is placed among the earlier steps."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime

from shop.calc.sheet import SheetStep

MOST_CODE = 40
NUMBERED = re.compile(r"^\d+[.)]?\s+(?=\S)")  # a number that a kit's template gave a stage


@dataclass(frozen=True, slots=True)
class AgreedStep:
    """A standing step of a job. `agreement` 1 opened the job.

    `before` are the codes of earlier agreed steps that wait for it. `begun_at` is when the work on it began, if it did.
    """

    code: str
    stage: str = ""
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    agreement: int = 1
    agreed_at: datetime | None = None
    begun_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class JoiningStep:
    """A step that joins a job: the code under which it was `sold`, and the one that it has in the job."""

    sold: str
    code: str
    after: tuple[str, ...]
    before: tuple[str, ...]


def place_steps(steps: Sequence[AgreedStep]) -> tuple[str, ...]:
    """The codes in the order of the work. `steps` are in the order in which they were agreed.

    Those of the first agreement keep their order. A later one follows the last step of its stage, else its
    predecessors, else all others; never ahead of a predecessor or of work that had begun when it was agreed, and
    ahead of the steps that wait for it.
    """
    order = [step for step in steps if step.agreement == 1]
    for step in steps:
        if step.agreement > 1:
            order.insert(_place(step, order), step)
    return tuple(step.code for step in order)


def _place(step: AgreedStep, order: Sequence[AgreedStep]) -> int:
    behind = [at for at, other in enumerate(order) if other.code in step.after]
    begun = [at for at, other in enumerate(order) if _had_begun(other, step)]
    ahead = [at for at, other in enumerate(order) if other.code in step.before]
    stage = [at for at, other in enumerate(order) if step.stage and _bare(other.stage) == _bare(step.stage)]
    earliest, latest = max([*behind, *begun], default=-1) + 1, min(ahead, default=len(order))
    if stage:
        place = stage[-1] + 1
    elif behind:
        place = behind[-1] + 1
        while place < len(order) and order[place].agreement > 1:  # behind steps that earlier additions placed here
            place += 1
    else:
        place = latest
    return max(earliest, min(place, latest))


def _had_begun(other: AgreedStep, step: AgreedStep) -> bool:
    return other.begun_at is not None and step.agreed_at is not None and other.begun_at <= step.agreed_at


def _bare(stage: str) -> str:
    return NUMBERED.sub("", stage)


def joining_steps(
    added: Sequence[SheetStep], standing: Collection[str], used: Collection[str]
) -> tuple[JoiningStep, ...]:
    """The steps of a further agreement that join a job. `standing` are its codes, `used` those it ever had.

    More hours of a step that stands are a step of their own behind it; one without hours is not added again, and
    those that it waits for come before it.
    """
    codes: dict[str, str] = {}
    for step in added:
        if step.code not in standing:
            codes[step.code] = step.code
        elif step.hours:
            codes[step.code] = free_code(step.code, {*used, *codes.values()})
    return tuple(
        JoiningStep(
            sold=step.code,
            code=codes[step.code],
            after=tuple(
                dict.fromkeys(
                    (
                        *([step.code] if codes[step.code] != step.code else []),
                        *(codes.get(code, code) for code in step.after),
                    )
                )
            ),
            before=tuple(other.code for other in added if other.code not in codes and step.code in other.after),
        )
        for step in added
        if step.code in codes
    )


def free_code(code: str, used: Collection[str]) -> str:
    """The code cut to the length of its column, with a number if it is used already."""
    short, number = code[:MOST_CODE], 1
    while short in used:
        number += 1
        mark = f"~{number}"
        short = code[: MOST_CODE - len(mark)] + mark
    return short
