"""Numbers of lines that are counted, differ, are sealed or remain: of a bag, a carton, a list or a report.

There is one definition for all of them. The front end has the same one (frontend/src/calc/lineFigures.ts) and runs the
same worked cases: fixtures/vectors/line-state.json.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from kitting.calc.counting import Tally
from kitting.calc.line_state import NOTHING_NOTED, Flags, LineState, line_state

DIFFERENCES = frozenset(("wrong_part", "damaged", "short", "over"))


@dataclass(frozen=True, slots=True)
class LineStanding:
    """One line: its states, and whether the figures include it as counted or sealed."""

    states: tuple[LineState, ...]
    counted: bool
    sealed: bool

    @property
    def codes(self) -> frozenset[str]:
        return frozenset(code for code, _ in self.states)

    @property
    def differs(self) -> bool:
        """True if the total is not the expected one, pieces are damaged, or a wrong-part note stands."""
        return bool(self.codes & DIFFERENCES)

    @property
    def count_again(self) -> bool:
        return "count_again" in self.codes


def line_standing(expected: int, tally: Tally | None, kind: str, flags: Flags = NOTHING_NOTED) -> LineStanding:
    """The standing of a line. The arguments are those of `line_state`.

    A line that was accepted sealed is no longer sealed if it differs or has to be counted again. A line that nobody
    counted is counted only if it was accepted sealed.
    """
    states = line_state(expected, tally, kind, flags)
    standing = LineStanding(states, tally is not None or flags.sealed, sealed=False)
    calm = not standing.differs and not standing.count_again
    return LineStanding(states, standing.counted, flags.sealed and calm)


@dataclass(frozen=True, slots=True)
class LineFigures:
    """Numbers of lines. `counted` and `not_counted` add up to all lines; the other figures are independent."""

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
    """The figures of some lines."""
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
