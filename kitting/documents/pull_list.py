"""The pull list on paper, in two editions: to be filled in with a pencil, and with what has been counted."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from itertools import groupby
from typing import Literal
from uuid import UUID
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string
from msgspec import UNSET, Struct, UnsetType, to_builtins

from kitting.answers.pull_lists import JobOfListOut, PullLineOut, PullListOut
from kitting.calc.counting import Tally, fold
from kitting.calc.line_state import Flags, line_state
from kitting.calc.observed import flags
from kitting.models import CountEvent, PullLine, PullList
from kitting.presenters.boxes import amount, kit_names, place_name
from kitting.presenters.counters import Counter, counters
from kitting.presenters.pull_lists import list_answer
from kitting.presenters.reports import state_words
from kitting.queries.counts import count_log
from shop.access import Actor
from shop.calc.snapshot import canonical
from shop.documents.printing import printed_once
from shop.presenters.dates import due_words, instant_words
from shop.words import say
from shop.words.languages import language

Edition = Literal["blank", "counts"]
EDITIONS: tuple[Edition, ...] = ("blank", "counts")
IN_THE_KIT = (PullLine.Kind.BOX.value, PullLine.Kind.BESIDE.value)
NOT_A_DIFFERENCE = ("all_here", "beside")


@dataclass(frozen=True, slots=True)
class ListCounts:
    """The log's tallies, flags and counters by line. `at` is when the server stored its last event."""

    tallies: Mapping[str, Tally]
    flags: Mapping[str, Flags]
    counters: Mapping[str, list[Counter]]
    at: datetime


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of the paper, as text. An edition to be filled in has nothing in the last four fields."""

    position: int
    title: str
    number: str
    beside: bool
    step: str
    amount: str
    total: str = ""
    damaged: str = ""
    difference: str = ""
    counters: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class _Table:
    """A table of the paper: a bag, a carton's loose parts, or the lines of another kind."""

    kind: str
    kit: str
    where: str
    lines: Sequence[_Row]


class _AttachedCount(Struct, frozen=True):
    total: int
    damaged: int
    low: int


class _Attachment(Struct, frozen=True):
    """The list as data inside its PDF. An edition to be filled in has no counts."""

    id: UUID
    job: JobOfListOut
    customer: str
    vehicle: str
    lines: list[PullLineOut]
    counts: dict[str, _AttachedCount] | UnsetType = UNSET


def pull_list_paper(actor: Actor, pull_list: PullList, edition: Edition) -> bytes:
    """The list as PDF/A-3a with its lines attached as JSON. Printed once for each content."""
    answer = list_answer(actor, pull_list)
    counts = list_counts(actor, pull_list, answer) if edition == "counts" else None
    attachment = _attachment(answer, pull_list, counts)
    title = say(f"pull_paper.title.{edition}", job=answer.job.number)
    facts = {
        "house": {"name": actor.shop.name, "phone": actor.shop.phone},
        "list": attachment,
        "lines": sum(line.kind != PullLine.Kind.REUSED for line in answer.lines),
        "opened": instant_words(pull_list.opened_at, actor.shop.zone),
        "counted_at": counts and instant_words(counts.at, actor.shop.zone),
        "counts": counts is not None,
        "places": _places(actor, pull_list, answer, counts),
        "heading": title,
    }
    return printed_once(
        render_to_string("kitting/pull_list.html", facts),
        folder=f"papers/pull-lists/{pull_list.pk}/{edition}-{language()}",
        title=title,
        made_at=counts.at if counts else pull_list.opened_at,
        attachment=canonical(to_builtins(attachment)).encode(),
        attachment_name="pull-list.json",
    )


def list_counts(actor: Actor, pull_list: PullList, answer: PullListOut) -> ListCounts:
    log = count_log(actor.shop, pull_list.pk, pull_list.last_seq)
    last = CountEvent.objects.filter(shop=actor.shop, pull_list=pull_list, seq=pull_list.last_seq)
    at = last.values_list("stored_at", flat=True).first() or pull_list.opened_at
    expected = {str(line.id): line.pieces for line in answer.lines}
    who = counters(actor, pull_list, log, expected)
    return ListCounts(fold(entry.event for entry in log), flags(log, expected), who, at)


def _attachment(answer: PullListOut, pull_list: PullList, counts: ListCounts | None) -> _Attachment:
    tallies = counts.tallies.items() if counts else ()
    return _Attachment(
        id=answer.id,
        job=answer.job,
        customer=pull_list.facts["customer"],
        vehicle=pull_list.facts["vehicle"],
        lines=answer.lines,
        counts={line: _AttachedCount(tally.total, tally.damaged, tally.low) for line, tally in tallies}
        if counts
        else UNSET,
    )


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line with the number of its copy of the kit and that of its step."""

    line: PullLineOut
    copy: int
    step: int | None


def placed_lines(actor: Actor, pull_list: PullList, answer: PullListOut) -> list[PlacedLine]:
    """The lines in the order of the list."""
    rows = PullLine.objects.filter(shop=actor.shop, pull_list=pull_list)
    numbers = {id: (copy, step) for id, copy, step in rows.values_list("id", "copy__number", "step__position")}
    return [PlacedLine(line, numbers[line.id][0] or 1, numbers[line.id][1]) for line in answer.lines]


def _places(actor: Actor, pull_list: PullList, answer: PullListOut, counts: ListCounts | None) -> list[_Table]:
    """One table for each bag, and one for a carton's loose parts: its head repeats on every page it covers."""
    placed = placed_lines(actor, pull_list, answer)
    in_kits = dict.fromkeys((item.line.kit, item.copy) for item in placed if item.line.kind in IN_THE_KIT)
    names = kit_names(list(in_kits), {kit.code: kit.title for kit in answer.kits})
    printer = LinePrinter(actor, pull_list, counts)
    return [_table(place, names, printer, list(items)) for place, items in groupby(placed, key=_place)]


Place = tuple[str, str, int, str, str]


def _place(item: PlacedLine) -> Place:
    line = item.line
    if line.kind not in IN_THE_KIT:
        return (line.kind, "", 0, "", "")
    return ("box", line.kit, item.copy, line.carton, line.bag)


def _table(
    place: Place, names: Mapping[tuple[str, int], str], printer: "LinePrinter", items: Sequence[PlacedLine]
) -> _Table:
    kind, kit, copy, carton, bag = place
    rows = [printer.row(item) for item in items]
    if kind != "box":
        return _Table(kind, say(f"pull_paper.{kind}"), "", rows)
    return _Table(kind, names[kit, copy], place_name(carton, bag), rows)


class LinePrinter:
    """Writes the lines of one list as text. Steps have their numbers in the job, as on screen."""

    def __init__(self, actor: Actor, pull_list: PullList, counts: ListCounts | None) -> None:
        self._counts, self._zone = counts, actor.shop.zone
        self._day = pull_list.opened_at.astimezone(ZoneInfo(self._zone)).date()

    def row(self, item: PlacedLine) -> _Row:
        line = item.line
        row = _Row(
            position=line.position,
            title=line.title,
            number=line.number,
            beside=line.kind == PullLine.Kind.BESIDE,
            step=str(item.step or line.operation),
            amount=amount(Decimal(line.quantity), line.unit),
        )
        counts = self._counts
        return row if counts is None or line.kind == PullLine.Kind.REUSED else self._counted(row, line, counts)

    def _counted(self, row: _Row, line: PullLineOut, counts: ListCounts) -> _Row:
        id = str(line.id)
        tally = counts.tallies.get(id)
        states = line_state(line.pieces, tally, line.kind, counts.flags.get(id, Flags()))
        return replace(
            row,
            total=_total(tally),
            damaged=str(tally.damaged) if tally and tally.damaged else "",
            difference="; ".join(state_words(state, tally) for state in states if state[0] not in NOT_A_DIFFERENCE),
            counters=[self._counter(counter) for counter in counts.counters.get(id, ())],
        )

    def _counter(self, counter: Counter) -> str:
        return say("counted.at", who=counter.who, at=due_words(counter.at, self._zone, self._day))


def _total(tally: Tally | None) -> str:
    if tally is None:
        return "\u2013"
    return str(tally.total) if tally.low == tally.total else f"{tally.low}\u2013{tally.total}"
