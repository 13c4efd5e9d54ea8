"""Findings about a file as codes and facts. The presenters word them."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

MUST_FIX = "must_fix"
PLEASE_CHECK = "please_check"
DONE_FOR_YOU = "done_for_you"
WEIGHTS = (MUST_FIX, PLEASE_CHECK, DONE_FOR_YOU)

Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """A remark on one place of a file. Row 0 stands for the file or the sheet as a whole.

    `code` and `facts` identify it, `says` quotes the cell. Only `must_fix` prevents the import. A row that it
    `leaves_out` stays in the list to look at, but is not imported.
    """

    weight: str
    code: str
    facts: Facts = ()
    sheet: str = ""
    row: int = 0
    column: str = ""
    field: str = ""
    heading: str = ""
    says: str = ""
    leaves_out: bool = False

    @property
    def cell(self) -> str:
        """The cell, as in "D47"; "" if the finding is not about a single cell."""
        return f"{self.column}{self.row}" if self.column and self.row else ""


class FileError(ValueError):
    """The whole file cannot be read. `code` and `facts` are as in a Finding."""

    def __init__(self, code: str, **facts: object) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts_of(**facts)


def facts_of(**facts: object) -> Facts:
    return tuple((name, str(value)) for name, value in facts.items())


def must_fix(code: str, where: Finding | None = None, **facts: object) -> Finding:
    return _finding(MUST_FIX, code, where, facts)


def please_check(code: str, where: Finding | None = None, **facts: object) -> Finding:
    return _finding(PLEASE_CHECK, code, where, facts)


def done_for_you(code: str, where: Finding | None = None, **facts: object) -> Finding:
    return _finding(DONE_FOR_YOU, code, where, facts)


def _finding(weight: str, code: str, where: Finding | None, facts: dict[str, object]) -> Finding:
    return replace(where or Finding(weight, code), weight=weight, code=code, facts=facts_of(**facts))


def gathered(findings: Iterable[Finding], limit: int = 5, must: int = 200) -> tuple[Finding, ...]:
    """Findings by weight, then in the order of the file.

    Of one code on one sheet, `limit` are kept (`must` of `must_fix`); the last one has the number of the others.
    """
    ordered = sorted(findings, key=lambda finding: WEIGHTS.index(finding.weight))
    selected: list[Finding] = []
    seen: Counter[tuple[str, str, str]] = Counter()
    last: dict[tuple[str, str, str], int] = {}
    for finding in ordered:
        group = (finding.weight, finding.code, finding.sheet)
        seen[group] += 1
        if seen[group] <= (must if finding.weight == MUST_FIX else limit):
            last[group] = len(selected)
            selected.append(finding)
    for group, count in seen.items():
        hidden = count - (must if group[0] == MUST_FIX else limit)
        if hidden > 0:
            shown_last = selected[last[group]]
            selected[last[group]] = replace(shown_last, facts=(*shown_last.facts, ("more", str(hidden))))
    return tuple(selected)
