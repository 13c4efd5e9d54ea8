"""The report of a list: every line that is not all here."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from kitting.answers.reports import CountedByOut, DifferenceOut, LineStateOut, ReportOut
from kitting.calc.contents import pieces
from kitting.calc.counting import Tally, fold
from kitting.calc.line_figures import LineStanding, line_figures, line_standing
from kitting.calc.line_state import Flags, LineState
from kitting.calc.observed import flags, weighed
from kitting.models import PullLine, PullList
from kitting.models.pulling import PullListState
from kitting.presenters.counters import Counter, counters
from kitting.presenters.pull_lists import job_of_list
from kitting.queries.counts import count_log
from shop.access import Actor
from shop.answers.base import utc, utc_or_none
from shop.words import say

FIELDS = ("id", "kind", "number", "title", "quantity", "unit", "carton", "bag", "operation")


@dataclass(frozen=True, slots=True)
class _Counts:
    tallies: Mapping[str, Tally]
    flags: Mapping[str, Flags]
    weighed: frozenset[str]
    counters: Mapping[str, list[Counter]]


def report_answer(actor: Actor, pull_list: PullList) -> ReportOut:
    """Every line that is not all here at the list's present seq, without re-used parts, which are on the vehicle."""
    log = count_log(actor.shop, pull_list.pk, pull_list.last_seq)
    rows = PullLine.objects.filter(shop=actor.shop, pull_list=pull_list, retired_at__isnull=True)
    lines = list(rows.exclude(kind=PullLine.Kind.REUSED).order_by("position").values_list(*FIELDS))
    expected = {str(id): pieces(quantity, unit) for id, _, _, _, quantity, unit, *_ in lines}
    counts = _Counts(
        fold(entry.event for entry in log),
        flags(log, expected),
        weighed(log),
        counters(actor, pull_list, log, expected),
    )
    standings = [(row, _standing(row, counts)) for row in lines]
    figures = line_figures(standing for _, standing in standings)
    closer = pull_list.closed_by
    return ReportOut(
        id=pull_list.pk,
        job=job_of_list(pull_list),
        state=PullListState(pull_list.state),
        seq=pull_list.last_seq,
        closed_at=utc_or_none(pull_list.closed_at),
        closed_by=closer.user.name if closer else None,
        lines=figures.lines,
        counted=figures.counted,
        not_counted=figures.not_counted,
        differ=figures.differ,
        count_again=figures.count_again,
        sealed=figures.sealed,
        late=figures.late,
        differences=[_line(row, standing, counts) for row, standing in standings if not _is_right(standing)],
    )


def _is_right(line: LineStanding) -> bool:
    """Returns whether the line was counted piece by piece and is all here."""
    return line.counted and not (line.differs or line.count_again or line.sealed or "late" in line.codes)


def _standing(row: tuple[Any, ...], counts: _Counts) -> LineStanding:
    id, kind, _, _, quantity, unit, *_ = row
    return line_standing(pieces(quantity, unit), counts.tallies.get(str(id)), kind, counts.flags.get(str(id), Flags()))


def _line(row: tuple[Any, ...], standing: LineStanding, counts: _Counts) -> DifferenceOut:
    id, kind, number, title, quantity, unit, carton, bag, operation = row
    tally, expected = counts.tallies.get(str(id)), pieces(quantity, unit)
    return DifferenceOut(
        line=id,
        kind=kind,
        number=number,
        title=title,
        carton=carton,
        bag=bag,
        expected=expected,
        unit=unit,
        total=tally.total if tally else None,
        damaged=tally.damaged if tally else None,
        low=tally.low if tally else None,
        weighed=str(id) in counts.weighed,
        states=[
            LineStateOut(code=state[0], count=state[1], words=state_words(state, tally)) for state in standing.states
        ],
        counted_by=[_counter(counter) for counter in counts.counters.get(str(id), ())],
        counted=standing.counted,
        differs=standing.differs,
        count_again=standing.count_again,
        sealed=standing.sealed,
        operation=operation,
    )


def _counter(counter: Counter) -> CountedByOut:
    return CountedByOut(who=counter.who, at=utc(counter.at), words=counter.words)


def state_words(state: LineState, tally: Tally | None) -> str:
    code, count = state
    if code == "count_again" and tally and tally.low != tally.total:
        return say("line.count_again_either", low=tally.low, total=tally.total)
    return say(f"line.{code}", count=count)
