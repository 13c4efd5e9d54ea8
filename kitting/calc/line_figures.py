"""How many lines are counted, differ, are sealed or wait, of a bag, a carton, a whole list or its report.

One definition for all of them, and the same in the front end (frontend/src/calc/lineFigures.ts) on the same worked
cases: fixtures/vectors/line-state.json.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from kitting.calc.counting import Tally
from kitting.calc.line_state import NOTHING_NOTED, Flags, LineState, line_state

DIFFERENCES = frozenset(("wrong_part", "damaged", "short", "over"))


@dataclass(frozen=True, slots=True)
class LineStanding:
    """One line: its states, and the figures that it is counted in."""

    states: tuple[LineState, ...]
    counted: bool
    sealed: bool

    @property
    def codes(self) -> frozenset[str]:
        return frozenset(code for code, _ in self.states)

    @property
    def differs(self) -> bool:
        """Counted with another total than expected, or pieces damaged, or a wrong-part note that stands."""
        return bool(self.codes & DIFFERENCES)

    @property
    def count_again(self) -> bool:
        return "count_again" in self.codes


def line_standing(expected: int, tally: Tally | None, kind: str, flags: Flags = NOTHING_NOTED) -> LineStanding:
    """The standing of a line; the arguments are those of `line_state`.

    A line that was accepted sealed and turns out to differ, or is to be counted again, is no longer among the sealed.
    A line that nobody counted is counted only where it was accepted sealed.
    """
    states = line_state(expected, tally, kind, flags)
    standing = LineStanding(states, tally is not None or flags.sealed, sealed=False)
    calm = not standing.differs and not standing.count_again
    return LineStanding(states, standing.counted, flags.sealed and calm)


@dataclass(frozen=True, slots=True)
class LineFigures:
    """Numbers of lines. `counted` and `not_counted` are all of them; each other figure stands for itself."""

    lines: int
    counted: int
    not_counted: int
    differ: int
    count_again: int
    sealed: int
    wrong_part: int
    damaged: int
    short: int
    over: int
    late: int


def line_figures(lines: Iterable[LineStanding]) -> LineFigures:
    standings = tuple(lines)
    counted = sum(line.counted for line in standings)

    def with_state(code: str) -> int:
        return sum(code in line.codes for line in standings)

    return LineFigures(
        lines=len(standings),
        counted=counted,
        not_counted=len(standings) - counted,
        differ=sum(line.differs for line in standings),
        count_again=with_state("count_again"),
        sealed=sum(line.sealed for line in standings),
        wrong_part=with_state("wrong_part"),
        damaged=with_state("damaged"),
        short=with_state("short"),
        over=with_state("over"),
        late=with_state("late"),
    )
