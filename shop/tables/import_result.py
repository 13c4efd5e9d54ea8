"""The result of reading a file as JSON in words, as the file is kept with it and screens show it."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from hashlib import sha256
from typing import Any

from shop.tables.columns import Table
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, shown_findings
from shop.tables.findings import DONE_FOR_YOU, MUST_FIX, PLEASE_CHECK, WEIGHTS, Finding
from shop.tables.parsed import PlannedLine
from shop.tables.structure.questions import FileQuestion
from shop.tables.wording import (
    becomes,
    choice_words,
    field_words,
    question_words,
    remedy,
    sentence,
    typed_words,
    why_left_out,
)
from shop.words import say

MOST_LEFT_OUT = 300


def result_of(
    kind: FileKind, reading: ParsedFile, planned: ImportPreview, findings: tuple[Finding, ...]
) -> dict[str, Any]:
    """The result of reading a file."""
    bad = {(finding.sheet, finding.row) for finding in findings if finding.weight == MUST_FIX}
    without = _rows_left_out(findings)
    rows = [at for row in reading.rows if (at := (row.sheet, row.number)) not in without]
    good = sum(at not in bad for at in rows)
    lines = [becomes(rows) for rows in planned.becomes]
    counts = Counter(finding.weight for finding in findings)
    nothing = say("import.becomes.after_repairs", n=good) if good else say("import.becomes.nothing")
    return {
        "becomes": {"title": lines[0] if lines else nothing, "words": lines[1:]},
        "rows": len(rows),
        "good": good,
        "skipped": reading.skipped,
        **_columns(kind, reading),
        "findings": [_finding_row(finding) for finding in shown_findings(findings)],
        "counts": {weight: counts[weight] for weight in WEIGHTS},
        "questions": [_question(question) for question in reading.questions],
        "typed": [_typed(name, reading) for name in kind.typed],
        "places": _places(kind, reading, planned, findings),
        "left_out": [_left_out(line) for line in reading.left_out[:MOST_LEFT_OUT]],
        "left_out_counts": [
            {"words": why_left_out(why), "rows": rows}
            for why, rows in Counter(line.why for line in reading.left_out).most_common()
        ],
        "can_take_in": not counts[MUST_FIX] and not any(question.open for question in reading.questions),
    }


def _rows_left_out(findings: Iterable[Finding]) -> set[tuple[str, int]]:
    """The rows that the import leaves out: (sheet, row)."""
    return {(finding.sheet, finding.row) for finding in findings if finding.leaves_out}


def _columns(kind: FileKind, reading: ParsedFile) -> dict[str, Any]:
    headings = [
        {
            "sheet": sheet,
            "column": column.letters,
            "heading": column.heading,
            "field": column.field,
            "table": _name(heading.table),
            **({"holds": list(column.holds)} if column.holds else {}),
        }
        for sheet, heading in reading.headings
        for column in heading.columns
    ]
    required: dict[str, bool] = {}
    for table in [heading.table for _, heading in reading.headings] or kind.tables:
        for item in table.fields:  # of fields of one name the first table decides: it is the list itself
            required.setdefault(item.name, item.required)
    tables: dict[str, list[str]] = defaultdict(list)
    for table in kind.tables:
        for item in table.fields:
            tables[item.name].append(_name(table))
    fields = [
        {"field": name, "words": field_words(name), "required": required.get(name, False), "tables": names}
        for name, names in tables.items()
    ]
    return {
        "columns": [item for item in headings if item["field"]],
        "headings": [{name: item[name] for name in item if name != "field"} for item in headings],
        "fields": fields,
    }


def _name(table: Table) -> str:
    """The name of the list in the answer: the first that its sheet may have."""
    return next(iter(table.sheets), "")


def _finding_row(finding: Finding) -> dict[str, Any]:
    return {
        "sheet": finding.sheet,
        "row": finding.row or None,
        "column": finding.column,
        "cell": finding.cell,
        "weight": finding.weight,
        "words": sentence(finding),
        "remedy": remedy(finding),
        "says": finding.says,
    }


def _question(question: FileQuestion) -> dict[str, Any]:
    words, why = question_words(question)
    return {
        "key": question.key,
        "words": words,
        "why": why,
        "sheet": question.sheet,
        "column": question.column,
        "choices": [{"value": choice.value, "words": choice_words(choice)} for choice in question.choices],
        "value": question.value if not question.open else None,
        "needed": question.needed,
    }


def _typed(name: str, reading: ParsedFile) -> dict[str, Any]:
    at = reading.title_at.get(name)
    return {
        "field": name,
        "words": typed_words(name),
        "text": str(reading.title.get(name, "")),
        "in_the_file": bool(at and at.row),
    }


def _left_out(line: Any) -> dict[str, Any]:
    return {
        "sheet": line.sheet,
        "row": line.number,
        "words": why_left_out(line.why),
        "text": line.text,
        "by_you": line.why == "by_you",
    }


def _planned(kind: FileKind, reading: ParsedFile, planned: ImportPreview) -> tuple[PlannedLine, ...]:
    return kind.lines(reading, planned.plan) if kind.lines is not None and planned.plan is not None else ()


def _places(
    kind: FileKind, reading: ParsedFile, planned: ImportPreview, findings: tuple[Finding, ...]
) -> list[dict[str, Any]]:
    """The cartons and bags in their order, with the number of lines and of problems in each."""
    weights: dict[tuple[str, int], Counter[str]] = {}
    for finding in findings:
        weights.setdefault((finding.sheet, finding.row), Counter())[finding.weight] += 1
    without = _rows_left_out(findings)
    places: dict[tuple[str, str], dict[str, Any]] = {}
    for line in _planned(kind, reading, planned):
        start = {"carton": line.carton, "bag": line.bag, "lines": 0, MUST_FIX: 0, PLEASE_CHECK: 0}
        place = places.setdefault((line.carton, line.bag), start)
        at = (line.row.sheet, line.row.number)
        place["lines"] += at not in without
        counts = weights.get(at, Counter())
        place[MUST_FIX] += counts[MUST_FIX]
        place[PLEASE_CHECK] += counts[PLEASE_CHECK]
    return [{"place": number, **place} for number, place in enumerate(places.values())]


def lines_of(
    kind: FileKind, reading: ParsedFile, planned: ImportPreview, findings: Iterable[Finding]
) -> list[dict[str, Any]]:
    """The planned list: a dict for each line, with the remarks on it."""
    remarks: dict[tuple[str, int], list[Finding]] = {}
    for finding in findings:
        if finding.row and finding.weight != DONE_FOR_YOU:
            remarks.setdefault((finding.sheet, finding.row), []).append(finding)
    corrected: dict[tuple[str, int], list[dict[str, str]]] = {}
    for (sheet, row, name), was in reading.originals.items():
        corrected.setdefault((sheet, row), []).append({"field": name, "words": field_words(name), "was": was})
    alike = Counter((sheet, key) for (sheet, _), own in remarks.items() for key in set(map(_problem, own)))
    numbers: dict[tuple[str, str], int] = {}
    lines = []
    for line in _planned(kind, reading, planned):
        at = (line.row.sheet, line.row.number)
        lines.append(
            {
                "place": numbers.setdefault((line.carton, line.bag), len(numbers)),
                "sheet": line.row.sheet,
                "row": line.row.number,
                "part": line.number,
                "title": line.title,
                "quantity": line.quantity,
                "unit": line.unit,
                "when": line.when,
                "filled_down": sorted(line.row.filled),
                "corrected": corrected.get(at, []),
                "findings": [_remark(finding, alike) for finding in remarks.get(at, ())],
            }
        )
    return lines


def _problem(finding: Finding) -> str:
    """The key of a problem: equal for the same remark about the same text of a column."""
    text = repr(finding.facts) if finding.code == "condition_in_words" else finding.says
    return sha256(f"{finding.code} {finding.field} {text}".encode()).hexdigest()[:16]


def _remark(finding: Finding, alike: Mapping[tuple[str, str], int]) -> dict[str, Any]:
    problem = _problem(finding)
    return {
        "problem": problem,
        "same": alike[finding.sheet, problem] - 1,
        "weight": finding.weight,
        "field": finding.field,
        "field_words": field_words(finding.field) if finding.field else "",
        "words": sentence(finding),
        "remedy": remedy(finding),
        "says": finding.says,
        "leaves_out": finding.leaves_out,
        "offers": [{"field": name, "text": text} for name, text in _offers(finding)],
    }


def _offers(finding: Finding) -> list[tuple[str, str]]:
    """(field, text) of the corrections that one tap makes."""
    facts = dict(finding.facts)
    match finding.code:
        case "condition_in_words":
            return [("when", facts["proposal"])] if facts["proposal"] != "none" else []
        case "date_for_a_number":
            return [(finding.field, text) for text in dict.fromkeys((facts["one"], facts["other"]))]
        case "successor_in_words":
            return [("replaces", facts["number"])]
        case "predecessor_in_words":
            return [("replaced_by", facts["number"])]
        case "two_numbers":
            return [(finding.field, facts["one"]), (finding.field, facts["other"])]
        case "look_alike":
            return [(finding.field, facts["proposal"])]
        case "two_meanings":
            return [(finding.field, facts["small"]), (finding.field, facts["large"])]
    return []
