"""Reads an ugly file as the import does, and compares it with what must be read."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

from kitting.imports.kit import KIND
from kitting.imports.kit_plan import ImportedKitLine, KitPlan
from shop.tables.engine import ParsedFile, read
from shop.tables.findings import DONE_FOR_YOU, MUST_FIX, Finding
from shop.tables.repairs import Repairs
from tests.ugly import cells, meaning, pages, places, suppliers
from tests.ugly.spec import Expected, UglyFile

FILES = (*places.FILES, *pages.FILES, *cells.FILES, *meaning.FILES, *suppliers.FILES)


@dataclass(frozen=True, slots=True)
class Reading:
    """A file as read and planned, with all findings."""

    file: ParsedFile
    plan: KitPlan
    findings: tuple[Finding, ...]

    @property
    def lines(self) -> list[Expected]:
        """The lines that can be imported: those of rows in which nothing must be fixed."""
        bad = {finding.row for finding in self.findings if finding.weight == MUST_FIX and finding.row}
        return [_line(line) for line in self.plan.lines if line.row.number not in bad]

    def has(self, code: str, place: str, weight: str = "") -> bool:
        return any(
            finding.code == code
            and place in ("", finding.cell, str(finding.row))
            and (not weight or finding.weight == weight)
            for finding in self.findings
        )


def reading_of(file: UglyFile, answers: Mapping[str, str] | None = None) -> Reading:
    parsed = read(KIND, file.name, file.body, None, Repairs(file.fields, answers or {}))
    preview = KIND.plan(parsed)
    return Reading(parsed, preview.plan, (*parsed.findings, *preview.findings))


def _line(line: ImportedKitLine) -> Expected:
    when = "; ".join(f"{name}={' or '.join(values)}" for name, values in line.when)
    return Expected(line.carton, line.bag, line.part.number, f"{line.quantity.normalize():f}", when, line.part.unit)


@dataclass(frozen=True, slots=True)
class Measure:
    """Lines of one file: all, right without a question, wrong and reported, wrong in silence.

    `untouched` are right whatever is answered: the lines that no open question is about. `right` is 0 in a file with an
    open question.
    """

    lines: int
    right: int
    untouched: int
    reported: int
    silent: int


def measure(file: UglyFile) -> Measure:
    """Compares the lines read without any answer with the lines that must be read.

    A line is right if it is as expected. A difference is said if a question is open, if the row has a finding that asks
    a person to look or to fix, or if the file is refused; otherwise it is silent.
    """
    reading = reading_of(file)
    expected, lines = list(file.lines), reading.lines
    open_questions = any(question.open for question in reading.file.questions)
    right = 0
    missing = []
    for line in expected:
        if line in lines:
            lines.remove(line)
            right += 1
        else:
            missing.append(line)
    hidden = any(finding.code == "hidden_rows" for finding in reading.findings) and not lines
    rows = {finding.row for finding in reading.findings if finding.weight != DONE_FOR_YOU}
    numbers = {line.part.number for line in reading.plan.lines if line.row.number in rows}
    wrong = [*missing, *lines]
    reported = len(wrong) if open_questions or hidden else sum(line.number in numbers for line in wrong)
    untouched = _untouched(file, reading) if open_questions else right
    return Measure(len(expected), 0 if open_questions else right, untouched, reported, len(wrong) - reported)


def _untouched(file: UglyFile, reading: Reading) -> int:
    """The number of lines that are right with each combination of answers to the open questions."""
    questions = [question for question in reading.file.questions if question.open]
    common = Counter(file.lines)
    for values in product(*([choice.value for choice in question.choices] for question in questions)):
        answers = dict(zip((question.key for question in questions), values, strict=True))
        common &= Counter(reading_of(file, answers).lines)
    return common.total()
