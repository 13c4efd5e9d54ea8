"""The pull list on paper, in two editions: to be filled in with a pencil, and with what has been counted."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from itertools import groupby
from typing import Any, Literal
from zoneinfo import ZoneInfo

from django.template.loader import render_to_string
from msgspec import to_builtins

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
class _Counts:
    """The log's tallies, flags and counters by line. `at` is when the server stored its last event."""

    tallies: Mapping[str, Tally]
    flags: Mapping[str, Flags]
    counters: Mapping[str, list[Counter]]
    at: datetime


def pull_list_paper(actor: Actor, pull_list: PullList, edition: Edition) -> bytes:
    """The list as PDF/A-3a with its lines attached as JSON. Printed once for each content."""
    shape = to_builtins(list_answer(actor, pull_list)) | {key: pull_list.facts[key] for key in ("customer", "vehicle")}
    counts = _counts(actor, pull_list, shape) if edition == "counts" else None
    title = say(f"pull_paper.title.{edition}", job=shape["job"]["number"])
    facts = {
        "house": {"name": actor.shop.name, "phone": actor.shop.phone},
        "list": shape,
        "lines": sum(line["kind"] != PullLine.Kind.REUSED for line in shape["lines"]),
        "opened": instant_words(pull_list.opened_at, actor.shop.zone),
        "counted_at": counts and instant_words(counts.at, actor.shop.zone),
        "counts": counts is not None,
        "places": _places(actor, pull_list, shape, counts),
        "heading": title,
    }
    return printed_once(
        render_to_string("kitting/pull_list.html", facts),
        folder=f"papers/pull-lists/{pull_list.pk}/{edition}-{language()}",
        title=title,
        made_at=counts.at if counts else pull_list.opened_at,
        attachment=canonical(_attached(shape, counts)).encode(),
        attachment_name="pull-list.json",
    )


def _counts(actor: Actor, pull_list: PullList, shape: Mapping[str, Any]) -> _Counts:
    log = count_log(actor.shop, pull_list.pk, pull_list.last_seq)
    last = CountEvent.objects.filter(shop=actor.shop, list=pull_list, seq=pull_list.last_seq)
    at = last.values_list("stored_at", flat=True).first() or pull_list.opened_at
    expected = {line["id"]: line["pieces"] for line in shape["lines"]}
    return _Counts(fold(entry.event for entry in log), flags(log, expected), counters(actor, pull_list, log), at)


def _attached(shape: Mapping[str, Any], counts: _Counts | None) -> dict[str, Any]:
    data = {key: shape[key] for key in ("id", "job", "customer", "vehicle", "lines")}
    if counts is not None:
        data["counts"] = {
            line: {"total": tally.total, "damaged": tally.damaged, "low": tally.low}
            for line, tally in counts.tallies.items()
        }
    return data


def _places(
    actor: Actor, pull_list: PullList, shape: Mapping[str, Any], counts: _Counts | None
) -> list[dict[str, Any]]:
    """One table for each bag, and one for a carton's loose parts: its head repeats on every page it covers."""
    rows = PullLine.objects.filter(shop=actor.shop, list=pull_list)
    numbers = {str(id): (copy, step) for id, copy, step in rows.values_list("id", "copy__number", "step__position")}
    lines = []
    for line in shape["lines"]:
        copy, step = numbers[line["id"]]
        lines.append(line | {"copy": copy or 1, "step": step})
    in_kits = dict.fromkeys((line["kit"], line["copy"]) for line in lines if line["kind"] in IN_THE_KIT)
    names = kit_names(list(in_kits), {kit["code"]: kit["title"] for kit in shape["kits"]})
    print_line = _Printer(actor, pull_list, counts)
    return [
        _heading(place, names) | {"kind": place[0], "lines": [print_line(line) for line in of_place]}
        for place, of_place in groupby(lines, key=_place)
    ]


Place = tuple[str, str, int, str, str]


def _place(line: Mapping[str, Any]) -> Place:
    if line["kind"] not in IN_THE_KIT:
        return (line["kind"], "", 0, "", "")
    return ("box", line["kit"], line["copy"], line["carton"], line["bag"])


def _heading(place: Place, names: Mapping[tuple[str, int], str]) -> dict[str, str]:
    kind, kit, copy, carton, bag = place
    if kind != "box":
        return {"kit": say(f"pull_paper.{kind}"), "where": ""}
    return {"kit": names[kit, copy], "where": place_name(carton, bag)}


class _Printer:
    """Writes the lines of one list as text. Steps have their numbers in the job, as on screen."""

    def __init__(self, actor: Actor, pull_list: PullList, counts: _Counts | None) -> None:
        self._counts, self._zone = counts, actor.shop.zone
        self._day = pull_list.opened_at.astimezone(ZoneInfo(self._zone)).date()

    def __call__(self, line: Mapping[str, Any]) -> dict[str, Any]:
        return {
            "position": line["position"],
            "title": line["title"],
            "number": line["number"],
            "beside": line["kind"] == PullLine.Kind.BESIDE,
            "step": str(line["step"] or line["operation"]),
            "amount": amount(Decimal(line["quantity"]), line["unit"]),
            **(self._counted(line, self._counts) if self._counts else {}),
        }

    def _counted(self, line: Mapping[str, Any], counts: _Counts) -> dict[str, Any]:
        id, kind = line["id"], line["kind"]
        if kind == PullLine.Kind.REUSED:
            return {}
        tally = counts.tallies.get(id)
        states = line_state(line["pieces"], tally, kind, counts.flags.get(id, Flags()))
        return {
            "total": _total(tally),
            "damaged": tally.damaged if tally and tally.damaged else "",
            "difference": "; ".join(state_words(state, tally) for state in states if state[0] not in NOT_A_DIFFERENCE),
            "counters": [self._counter(state) for state in counts.counters.get(id, ())],
        }

    def _counter(self, counter: Counter) -> str:
        return say("counted.at", who=counter.who, at=due_words(counter.at, self._zone, self._day))


def _total(tally: Tally | None) -> str:
    if tally is None:
        return "\u2013"
    return str(tally.total) if tally.low == tally.total else f"{tally.low}\u2013{tally.total}"
