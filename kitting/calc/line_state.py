"""The states of one line of a pull list, shown with its figures (the calculation named line_state).

The front end has the same states (frontend/src/calc/lineState.ts) and runs the same worked cases. This module returns
codes; the catalogues word them.
"""

from dataclasses import dataclass
from typing import Literal

from kitting.calc.counting import Tally

Code = Literal[
    "count_again",
    "wrong_part",
    "damaged",
    "short",
    "over",
    "late",
    "sealed",
    "all_here",
    "untouched",
    "beside",
]
LineState = tuple[Code, int]
"""(code, number of pieces, or of observations for `late` and `wrong_part`; 0 for a code without a number)"""


@dataclass(frozen=True, slots=True)
class Flags:
    """The observations on a line that are not counts.

    `wrong_part` and `late` are numbers of observations: pieces noted as another part, and events after closing.
    `sealed`: the bag was accepted unopened.
    """

    wrong_part: int = 0
    late: int = 0
    sealed: bool = False


NOTHING_NOTED = Flags()


def line_state(expected: int, tally: Tally | None, kind: str, flags: Flags = NOTHING_NOTED) -> tuple[LineState, ...]:
    """The states of a line, the most urgent first; never empty.

    `expected` is in whole pieces; `tally` is None while nothing live was counted; `kind` is box, beside,
    need or reused. In this order, each if it applies:

    1. `count_again`: the figures are not settled, so nothing else is read from them (`damaged`, `short`, `over`
       and the calm states wait for the next count). Its number is the difference between the two totals.
    2. `wrong_part`, `damaged`, `short`, `over`. Short and over compare `expected` with the total including damaged
       pieces: six of six with two damaged is damaged 2 only, five of six with two damaged is damaged 2 and short 1.
    3. `late`: an observation after closing waits for the manager.
    4. For a line beside the vehicle's list, `beside` in any case: it never goes on the vehicle. For any other line
       without a state from 1 or 2: `sealed` (accepted unopened, counted or not), else `all_here`, or `untouched`
       while nothing was counted.
    """
    states = _from_figures(expected, tally, flags)
    late = _state_above_zero("late", flags.late)
    if kind == "beside":
        return (*states, *late, ("beside", 0))
    return (*states, *late) if states else (*late, (_calm(tally, flags), 0))


def _from_figures(expected: int, tally: Tally | None, flags: Flags) -> tuple[LineState, ...]:
    wrong_part = _state_above_zero("wrong_part", flags.wrong_part)
    if tally is None:
        return wrong_part
    if tally.confirm:
        return (("count_again", tally.total - tally.low), *wrong_part)
    return (
        *wrong_part,
        *_state_above_zero("damaged", tally.damaged),
        *_state_above_zero("short", expected - tally.total),
        *_state_above_zero("over", tally.total - expected),
    )


def _state_above_zero(code: Code, count: int) -> tuple[LineState, ...]:
    return ((code, count),) if count > 0 else ()


def _calm(tally: Tally | None, flags: Flags) -> Code:
    if flags.sealed:
        return "sealed"
    return "untouched" if tally is None else "all_here"
