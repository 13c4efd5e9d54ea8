"""Decisions about a file before it is imported: answers, typed fields, corrected cells, rows left out, bags.

They are kept as steps in their order, so that each can be undone, and folded into Repairs whenever the file is read.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

KEPT_FIELDS = frozenset({"currency"})
"""Typed fields that hold for the supplier's next file too.

A kit's number and title are only offered: another file is another kit, and taking the number over silently would make a
new version of the wrong one.
"""
MOST_KEPT = 500  # corrected texts and left-out rows a supplier


@dataclass(frozen=True, slots=True)
class PlaceRange:
    """Rows of a sheet that a person put into a carton and a bag."""

    sheet: str
    first: int
    last: int
    places: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Repairs:
    """The decisions on one file.

    `values` are {(sheet, row, field): text}. `texts` and `texts_left_out` come from the supplier's last file:
    {(field, text in the file): text instead}, and rows by their whole text.
    """

    fields: Mapping[str, str] = field(default_factory=dict)
    answers: Mapping[str, str] = field(default_factory=dict)
    values: Mapping[tuple[str, int, str], str] = field(default_factory=dict)
    left_out: frozenset[tuple[str, int]] = frozenset()
    ranges: tuple[PlaceRange, ...] = ()
    texts: Mapping[tuple[str, str], str] = field(default_factory=dict)
    texts_left_out: frozenset[str] = frozenset()

    def places_of(self, sheet: str, row: int) -> Mapping[str, str]:
        """The places that a person gave this row; the last range that contains it wins."""
        places: Mapping[str, str] = {}
        for put in self.ranges:
            if put.sheet == sheet and put.first <= row <= put.last:
                places = put.places
        return places


NO_REPAIRS = Repairs()


def folded_steps(steps: Iterable[Mapping[str, Any]], before: Repairs = NO_REPAIRS) -> Repairs:
    """The repairs that the steps make, each in the shape that the API takes. `before` are those of the last file."""
    fields, answers = dict(before.fields), dict(before.answers)
    values: dict[tuple[str, int, str], str] = {}
    left_out: set[tuple[str, int]] = set()
    ranges: list[PlaceRange] = []
    for step in steps:
        match step["do"]:
            case "field":
                fields[step["field"]] = step["text"]
            case "answer":
                answers[step["question"]] = step["text"]
            case "value":
                for row in step["rows"]:
                    values[step["sheet"], row, step["field"]] = step["text"]
            case "leave_out":
                left_out |= {(step["sheet"], row) for row in step["rows"]}
            case "place":
                places = {name: step[name] for name in ("carton", "bag")}
                ranges += [PlaceRange(step["sheet"], row, row, places) for row in step["rows"]]
    return replace(
        before, fields=fields, answers=answers, values=values, left_out=frozenset(left_out), ranges=tuple(ranges)
    )


def remembered(memory: Mapping[str, Any]) -> Repairs:
    """The repairs of a supplier's last file, from the form in which they are kept."""
    texts = {(name, was): text for name, was, text in memory.get("values", ())}
    return Repairs(
        dict(memory.get("fields", {})),
        dict(memory.get("answers", {})),
        texts=texts,
        texts_left_out=frozenset(memory.get("left_out", ())),
    )


def to_remember(repairs: Repairs, texts: Mapping[tuple[str, int, str], str], rows: Iterable[str]) -> dict[str, Any]:
    """Returns as JSON the decisions that the supplier's next file takes over.

    `texts` are what the corrected cells held, `rows` the texts of the rows left out. A correction of an empty cell
    holds for its row only.
    """
    corrected: dict[tuple[str, str], str] = {}
    for (sheet, row, name), text in repairs.values.items():
        if was := texts.get((sheet, row, name), ""):
            corrected[name, was] = text
    values = [[name, was, text] for (name, was), text in {**repairs.texts, **corrected}.items()]
    return {
        "answers": dict(repairs.answers),
        "fields": {name: text for name, text in repairs.fields.items() if name in KEPT_FIELDS},
        "values": values[-MOST_KEPT:],
        "left_out": sorted({*repairs.texts_left_out, *rows})[:MOST_KEPT],
    }
